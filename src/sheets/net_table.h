#pragma once

#include "sheets/stereonet.h"

#include <cstddef>
#include <string>
#include <vector>

// The words of a stereonet: its sentence, the figures of its sets, its legend and methods.
namespace selvage::sheets {

std::string group_words(const PoleGroup& group);   // "Ouzel contacts", "joints"
std::string net_sentence(const PoleGroup& group);  // over the net
// The figures of sets and model beside the net.
Marks net_table(const PoleGroup& group, const Results& results, const Box& room, const Tools& tools);
std::vector<LegendGroup> net_legend(const PoleGroup& group, const std::vector<double>& levels, bool mean_planes, bool blind,
                                    const Tools& tools);
std::vector<std::string> net_methods(const PoleGroup& group, const std::vector<double>& levels, bool blind);

constexpr std::size_t most_density_levels = 4;
// Of the i-th level of density: even steps from white to the style's darkest, which a grey copy tells apart.
drawing::FillLook density_fill(std::size_t level, const Tools& tools);
// Under this sine of the angle between hole and plane a weight is held, as numerics::terzaghi_weight holds it.
double blind_sine();

}  // namespace selvage::sheets
