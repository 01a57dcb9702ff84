#include "base/parallel.h"
#include "veins/vein.h"

#include <cstddef>
#include <optional>
#include <utility>

namespace selvage::veins {

namespace {

constexpr std::size_t fewest_intercepts = 3;  // with fewer the model's normal is hardly more than the prior

}  // namespace

std::vector<intercepts::Intercept> with_true_thickness(std::vector<intercepts::Intercept> met, const std::vector<Vein>& veins,
                                                       const std::vector<tables::Analyte>& analytes) {
    base::parallel_for(met.size(), [&](std::size_t i) {
        std::optional<intercepts::LocalNormal> normal;
        for (const Vein& vein : veins) {
            if (vein.name() == met[i].vein && vein.summary().intercepts >= fewest_intercepts)
                normal = vein.normal_at(met[i].point);
        }
        met[i] = intercepts::complete_thickness(std::move(met[i]), normal, analytes);
    });
    return met;
}

}  // namespace selvage::veins
