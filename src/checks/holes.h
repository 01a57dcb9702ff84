#pragma once

#include "base/finding.h"
#include "base/units.h"
#include "tables/records.h"

#include <cstddef>
#include <map>
#include <string>
#include <vector>

namespace selvage::checks {

// The collars that can be used, asked by name. Private to this room.
class Holes {
public:
    explicit Holes(const std::vector<tables::Collar>& collars);

    static constexpr std::size_t none = static_cast<std::size_t>(-1);
    // Place in the collar table of a name, trimmed and in any case; `none` where no collar has it.
    std::size_t number_of(const std::string& name) const;
    const tables::Collar& collar(std::size_t number) const { return collars_[number]; }
    std::size_t count() const { return collars_.size(); }
    // The depth below which a hole cannot have rows, m: its depth; of an active one what it has drilled, if that is more.
    double end_of(std::size_t number) const;

private:
    const std::vector<tables::Collar>& collars_;
    std::map<std::string, std::size_t> by_folded_name_;
};

// Row numbers of a table by hole, in the order of the table. Rows of unknown holes (standards without a hole) are in none.
template <typename Row>
std::vector<std::vector<std::size_t>> rows_by_hole(const std::vector<Row>& rows, const Holes& holes) {
    std::vector<std::vector<std::size_t>> of_hole(holes.count());
    const std::string* last = nullptr;  // rows of a hole mostly follow each other
    std::size_t number = Holes::none;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (last == nullptr || rows[i].hole != *last) number = holes.number_of(rows[i].hole);
        last = &rows[i].hole;
        if (number != Holes::none) of_hole[number].push_back(i);
    }
    return of_hole;
}

// Removes the rows that are marked.
template <typename Row>
void remove_marked(std::vector<Row>& rows, const std::vector<char>& marked) {
    std::size_t kept = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (marked[i] != 0) continue;
        if (kept != i) rows[kept] = std::move(rows[i]);
        ++kept;
    }
    rows.resize(kept);
}

// What all checks of a run share.
struct Checking {
    const base::MapFrame& frame;
    std::vector<base::Finding>& findings;

    void report(const base::Check& check, const base::Origin& origin, const std::string& hole, std::string message) {
        findings.push_back({&check, origin, hole, std::move(message)});
    }
    // "12.30 m", in the project's unit.
    std::string length(double metres) const;
};

}  // namespace selvage::checks
