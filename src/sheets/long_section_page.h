#pragma once

#include "sheets/key_plan.h"
#include "sheets/legend_signs.h"
#include "sheets/long_section_content.h"
#include "sheets/long_section_faults.h"
#include "sheets/page.h"

#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <vector>

// The words round a long section: title, ends, column, cautions.
namespace selvage::sheets {

// What was mapped by the isolines, for the legend.
struct MappedWords {
    std::string quantity;    // "silver × true thickness, g/t·m"
    std::size_t hits = 0;    // that carry it
    double near_hits = 0.0;  // m
    double reach = 0.0;      // m
    bool tints = false, solid_lines = false, dashed_lines = false;
    std::string strong_level;  // figure of the heavier line; empty: none is drawn
    bool contrary = false;     // the fill is left out round hits that it contradicts
};

struct LongSectionDrawn {
    double scale_denominator = 1000.0;
    std::optional<MappedWords> mapped;
    bool ground = false, ground_assumed = false, property = false, workings = false, sections = false;
    std::set<Sign> faults;  // how well the places of those that do not part the vein are known
    std::set<Sign> forecasts;
    FaultsOnPlane parting;
    std::string section_words;                                                        // "cross sections S1 to S16, every 25 m"
    std::vector<std::string> listed;                                                  // the placer's side list
    Eigen::Vector2d left = Eigen::Vector2d::Zero(), right = Eigen::Vector2d::Zero();  // ends, layout
};

// How an edge of the model is drawn, by its reason: in the vein's colour where the data end it, else in ink.
drawing::LineLook edge_look(veins::EdgeReason reason, std::size_t vein, const Tools& tools);

PageContent long_section_page(const LongSectionContent& content, const LongSectionDrawn& drawn, const Results& results,
                              const GradeClasses& classes, const KeyMap& key, const Tools& tools);

}  // namespace selvage::sheets
