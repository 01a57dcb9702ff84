#include "veins/presence_score.h"

#include <algorithm>
#include <cmath>

namespace selvage::veins {

std::vector<ToldChance> told_chances(const Vein& vein) {
    std::vector<ToldChance> told;
    for (const FitRow& row : vein.fit()) told.push_back({row.presence, row.present});
    for (const NoVein& row : vein.no_vein())
        if (row.is_miss()) told.push_back({row.presence, false});
    return told;
}

ChanceScore score_of(const std::vector<ToldChance>& told) {
    ChanceScore score;
    score.places = told.size();
    for (const ToldChance& one : told) {
        score.came += one.came ? 1 : 0;
        score.expected += one.said;
        for (ChanceClass& part : score.classes) {
            const bool is_last = &part == &score.classes.back();
            if (one.said < part.low || (one.said >= part.high && !is_last)) continue;
            ++part.places;
            part.came += one.came ? 1 : 0;
            part.expected += one.said;
        }
    }
    if (told.size() < 2) return score;
    const auto count = static_cast<double>(told.size());
    double squares = 0.0;  // of the gains
    for (const ToldChance& one : told) {
        const double came = one.came ? 1.0 : 0.0;
        const double share = (static_cast<double>(score.came) - came) / (count - 1.0);
        const double own = std::pow(one.said - came, 2), plain = std::pow(share - came, 2);
        score.brier += own / count;
        score.plain += plain / count;
        squares += std::pow(plain - own, 2);
    }
    const double gain = score.plain - score.brier;
    score.gain_sd = std::sqrt(std::max(0.0, squares / count - gain * gain) / (count - 1.0));
    return score;
}

}  // namespace selvage::veins
