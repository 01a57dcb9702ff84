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
    std::vector<std::optional<intercepts::LocalNormal>> normals(met.size());
    for (const Vein& vein : veins) {
        if (vein.summary().intercepts < fewest_intercepts) continue;
        std::vector<std::size_t> own;
        std::vector<Eigen::Vector3d> points;
        for (std::size_t i = 0; i < met.size(); ++i) {
            if (met[i].vein != vein.name()) continue;
            own.push_back(i);
            points.push_back(met[i].point);
        }
        const std::vector<intercepts::LocalNormal> of_vein = vein.normals_at(points);
        for (std::size_t k = 0; k < own.size(); ++k) normals[own[k]] = of_vein[k];
    }
    for (std::size_t i = 0; i < met.size(); ++i) met[i] = intercepts::complete_thickness(std::move(met[i]), normals[i], analytes);
    return met;
}

}  // namespace selvage::veins
