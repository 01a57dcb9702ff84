#include "checks/names.h"

#include "base/text.h"
#include "checks/record_checks.h"

#include <fmt/format.h>

#include <map>
#include <optional>
#include <utility>

namespace selvage::checks {

namespace {

struct Unplaced {
    std::size_t count = 0;
    base::Origin first;
    std::string name;
};

void report_unplaced(const std::string& folded, const Unplaced& rows, const Holes& holes, const std::map<std::string, Gone>& gone,
                     Checking& checking) {
    const auto reason = gone.find(folded);
    const std::string count =
        rows.count == 1 ? "the row is left out" : fmt::format("{} rows, this one first, are left out", rows.count);
    if (reason == gone.end()) {
        std::vector<std::string> names;
        for (std::size_t i = 0; i < holes.count(); ++i) names.push_back(holes.collar(i).hole);
        const std::optional<std::string> nearest = base::nearest_word(rows.name, names);
        checking.report(
            unknown_hole, rows.first, rows.name,
            fmt::format("no collar has this name{}: {}", nearest ? "; the nearest is " + *nearest : std::string(), count));
    } else if (reason->second == Gone::ambiguous) {
        checking.report(hole_ambiguous, rows.first, rows.name, "two campaigns have a hole of this name: " + count);
    } else {
        checking.report(hole_left_out, rows.first, rows.name, "its collar is left out: " + count);
    }
}

template <typename Row>
void spell(std::vector<Row>& rows, const Holes& holes, const std::map<std::string, Gone>& gone, Checking& checking) {
    std::vector<char> marked(rows.size(), 0);
    std::map<std::string, Unplaced> unplaced;
    std::string last;
    std::size_t number = Holes::none;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        std::string& hole = rows[i].hole;
        if (hole.empty()) continue;  // a standard or a blank
        if (hole != last) {
            number = holes.number_of(hole);
            last = hole;
        }
        if (number != Holes::none) {
            hole = holes.collar(number).hole;
            continue;
        }
        marked[i] = 1;
        Unplaced& group = unplaced[base::folded(hole)];
        if (group.count++ == 0) group = {1, rows[i].origin, hole};
    }
    for (const auto& [folded, group] : unplaced) report_unplaced(folded, group, holes, gone, checking);
    remove_marked(rows, marked);
}

class VeinNames {
public:
    explicit VeinNames(const std::vector<std::string>& veins) : veins_(veins) {
        for (const std::string& vein : veins) by_folded_.emplace(base::folded(vein), vein);
    }

    // Spells a name; false where the project has no such vein.
    bool spell(std::string& name) const {
        if (name.empty()) return true;
        const auto found = by_folded_.find(base::folded(name));
        if (found == by_folded_.end()) return false;
        name = found->second;
        return true;
    }
    std::string unknown(const std::string& name) const {
        const std::optional<std::string> nearest = base::nearest_word(name, veins_);
        return fmt::format("the project file has no vein {}{}", name, nearest ? "; the nearest is " + *nearest : std::string());
    }

private:
    const std::vector<std::string>& veins_;
    std::map<std::string, std::string> by_folded_;
};

template <typename Row>
void spell_or_drop(std::vector<Row>& rows, const VeinNames& names, Checking& checking) {
    for (Row& row : rows) {
        if (names.spell(row.vein)) continue;
        std::string hole;
        if constexpr (!std::is_same_v<Row, tables::Outcrop>) hole = row.hole;
        checking.report(unknown_vein, row.origin, hole, names.unknown(row.vein) + ": the row is used without its vein");
        row.vein.clear();
    }
}

}  // namespace

void spell_holes(tables::Records& records, const Holes& holes, const std::map<std::string, Gone>& gone, Checking& checking) {
    spell(records.surveys, holes, gone, checking);
    spell(records.picks, holes, gone, checking);
    spell(records.geology, holes, gone, checking);
    spell(records.assays, holes, gone, checking);
    spell(records.structures, holes, gone, checking);
    spell(records.recovery, holes, gone, checking);
    spell(records.minerals, holes, gone, checking);
    spell(records.drilling, holes, gone, checking);
    spell(records.sizes, holes, gone, checking);
}

void spell_veins(tables::Records& records, const std::vector<std::string>& veins, Checking& checking) {
    const VeinNames names(veins);
    std::vector<char> marked(records.picks.size(), 0);
    for (std::size_t i = 0; i < records.picks.size(); ++i) {
        tables::Pick& pick = records.picks[i];
        if (names.spell(pick.vein)) continue;
        checking.report(unknown_vein, pick.origin, pick.hole, names.unknown(pick.vein) + ": the pick is left out");
        marked[i] = 1;
    }
    remove_marked(records.picks, marked);
    spell_or_drop(records.geology, names, checking);
    spell_or_drop(records.structures, names, checking);
    spell_or_drop(records.outcrops, names, checking);
    for (tables::Collar& collar : records.collars) {
        if (!collar.target || names.spell(collar.target->vein)) continue;
        checking.report(unknown_vein, collar.origin, collar.hole,
                        names.unknown(collar.target->vein) + ": the target is used without its vein");
        collar.target->vein.clear();
    }
}

}  // namespace selvage::checks
