#include "sheets/openings_words.h"

#include "sheets/cautions.h"
#include "sheets/finding_groups.h"
#include "sheets/label_text.h"
#include "sheets/opening_signs.h"
#include "site/openings.h"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

namespace selvage::sheets {

namespace {

constexpr std::size_t named = 3;  // no more holes are named one by one

std::string void_words(const site::OpenedVoid& opened, const base::MapFrame& map) {
    const bool is_range = opened.to > opened.from;
    return opened.hole + " ran into a void at " +
           (is_range ? depth_range_text(opened.from, opened.to, map) : length_text(opened.from, map)) +
           (opened.note.empty() ? "" : " (" + opened.note + ")");
}

std::string sampled_words(const std::vector<site::SampledBelow>& sampled, const base::MapFrame& map) {
    std::string names;
    double deepest = 0.0;
    for (std::size_t i = 0; i < sampled.size(); ++i) {
        if (i < named) names += (i == 0 ? "" : ", ") + sampled[i].hole;
        deepest = std::max(deepest, sampled[i].depth);
    }
    const bool are_one = sampled.size() == 1;
    return count_words(sampled.size(), "channel") + " (" + names + (sampled.size() > named ? " ..." : "") + ") " +
           (are_one ? "was" : "were") + " sampled " + (are_one ? "" : "up to ") + length_text(deepest, map, 0) +
           " below the ground, in workings";
}

// "void in HC-03, 7 channels underground"
std::string openings_in_short(const site::Openings& openings) {
    std::vector<std::string> holes;
    for (const site::OpenedVoid& opened : openings.voids)
        if (std::find(holes.begin(), holes.end(), opened.hole) == holes.end()) holes.push_back(opened.hole);
    std::string words;
    for (std::size_t i = 0; i < std::min(named, holes.size()); ++i) words += (i == 0 ? "void in " : ", ") + holes[i];
    if (holes.size() > named) words += " and " + std::to_string(holes.size() - named) + " more";
    if (!openings.sampled.empty())
        words += (words.empty() ? "" : ", ") + count_words(openings.sampled.size(), "channel") + " underground";
    return words;
}

}  // namespace

std::string openings_words(const Results& results) {
    const base::MapFrame& map = results.records.frame;
    const site::Openings openings = openings_of(results);
    if (openings.empty()) return "";
    std::vector<std::string> told;
    for (std::size_t i = 0; i < std::min(named, openings.voids.size()); ++i) told.push_back(void_words(openings.voids[i], map));
    if (openings.voids.size() > named)
        told.push_back(std::to_string(openings.voids.size() - named) + " more voids (see the logs)");
    if (!openings.sampled.empty()) told.push_back(sampled_words(openings.sampled, map));
    std::string words = "Known openings: ";
    for (std::size_t i = 0; i < told.size(); ++i) words += (i == 0 ? "" : "; ") + told[i];
    return words + ".";
}

std::string workings_known_words(const Results& results) {
    std::string words = openings_words(results);
    if (!words.empty()) words.insert(0, " ");
    if (!results.site.workings.empty()) return workings_caution() + words;
    return "No map of old workings was given" +
           (words.empty() ? std::string(": that is not to say that there are none.") : "." + words + " There may be more.");
}

std::string workings_known_in_short(const Results& results) {
    const site::Openings openings = openings_of(results);
    if (openings.empty()) return workings_known_words(results);
    return "No map of old workings. Known: " + openings_in_short(openings) + " (see the back).";
}

std::vector<std::string> hole_names(const std::vector<paths::Path>& paths) {
    std::vector<std::string> names;
    for (const paths::Path& path : paths) names.push_back(path.hole);
    return names;
}

std::string openings_caution(const std::vector<site::OpenedVoid>& voids, const std::vector<std::string>& holes,
                             const Results& results) {
    site::Openings shown = openings_of(results);
    shown.voids = voids;
    shown.sampled.erase(std::remove_if(shown.sampled.begin(), shown.sampled.end(),
                                       [&](const site::SampledBelow& one) {
                                           return std::find(holes.begin(), holes.end(), one.hole) == holes.end();
                                       }),
                        shown.sampled.end());
    return shown.empty() ? "" : "Known openings: " + openings_in_short(shown) + ".";
}

}  // namespace selvage::sheets
