#include "site/openings.h"

#include "base/text.h"

#include <algorithm>
#include <tuple>

namespace selvage::site {

namespace {

constexpr double one_void = 1.0;  // m between rows that tell of one void: depths by rods and by core differ by so much

bool is_opening(const std::string& word) {
    const std::string folded = base::folded(word);
    for (const char* opening : {"void", "stope", "cavity", "old working"})
        if (folded.find(opening) != std::string::npos) return true;
    return false;
}

std::vector<OpenedVoid> rows_of_voids(const tables::Records& records) {
    std::vector<OpenedVoid> rows;
    for (const tables::Pick& pick : records.picks)
        if (pick.state == tables::PickState::open_void) rows.push_back({pick.hole, pick.from, pick.to, pick.comment});
    for (const tables::GeologyInterval& row : records.geology)
        if (is_opening(row.rock)) rows.push_back({row.hole, row.from, row.to, ""});
    for (const tables::DrillingEvent& event : records.drilling)
        if (is_opening(event.kind)) rows.push_back({event.hole, event.depth, event.to.value_or(event.depth), event.note});
    return rows;
}

// Its rows joined; of notes the first.
std::vector<OpenedVoid> voids_of(const std::vector<OpenedVoid>& rows, const std::string& hole) {
    std::vector<OpenedVoid> all;
    for (const OpenedVoid& row : rows)
        if (row.hole == hole) all.push_back(row);
    std::stable_sort(all.begin(), all.end(),
                     [](const OpenedVoid& a, const OpenedVoid& b) { return std::tie(a.from, a.to) < std::tie(b.from, b.to); });
    std::vector<OpenedVoid> joined;
    for (OpenedVoid& next : all) {
        if (joined.empty() || next.from > joined.back().to + one_void) {
            joined.push_back(std::move(next));
            continue;
        }
        joined.back().to = std::max(joined.back().to, next.to);
        if (joined.back().note.empty()) joined.back().note = std::move(next.note);
    }
    return joined;
}

}  // namespace

Openings known_openings(const tables::Records& records, const Ground& ground) {
    Openings openings;
    const std::vector<OpenedVoid> rows = rows_of_voids(records);
    for (const tables::Collar& collar : records.collars) {
        for (OpenedVoid& opened : voids_of(rows, collar.hole)) openings.voids.push_back(std::move(opened));
        if (collar.type != tables::HoleType::channel && collar.type != tables::HoleType::face) continue;
        const std::optional<double> top = ground.elevation_at(collar.position.head<2>());
        if (top && *top - collar.position.z() >= surely_below)
            openings.sampled.push_back({collar.hole, *top - collar.position.z()});
    }
    return openings;
}

}  // namespace selvage::site
