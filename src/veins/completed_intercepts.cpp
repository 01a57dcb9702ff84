#include "veins/vein.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <utility>

namespace selvage::veins {

namespace {

constexpr std::size_t fewest_intercepts = 3;  // with fewer the model's normal is hardly more than the prior

bool is_doubtful(const Vein& vein, const intercepts::Intercept& met) {
    return std::any_of(vein.fit().begin(), vein.fit().end(), [&](const FitRow& row) {
        return row.hole == met.hole && row.actual_depth == met.middle() && row.is_doubtful();
    });
}

}  // namespace

std::vector<intercepts::Intercept> completed_by_models(std::vector<intercepts::Intercept> met, const std::vector<Vein>& veins,
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
        for (std::size_t k = 0; k < own.size(); ++k) {
            normals[own[k]] = of_vein[k];
            intercepts::set_flag(met[own[k]], "doubtful", is_doubtful(vein, met[own[k]]));
        }
    }
    for (std::size_t i = 0; i < met.size(); ++i) met[i] = intercepts::complete_thickness(std::move(met[i]), normals[i], analytes);
    return met;
}

}  // namespace selvage::veins
