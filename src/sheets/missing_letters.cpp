#include "sheets/missing_letters.h"

#include "sheets/news.h"

#include <fmt/format.h>

#include <set>
#include <utility>

namespace selvage::sheets {

namespace {

const base::Check letter_not_in_font = {
    "letter-not-in-font", base::Severity::warning,
    "A name or a word holds letters that the sheets' font lacks; sheets show a question mark in place of each.",
    "Choose a style whose font_family has these letters, or spell the name in letters that the font has."};

class Search {
public:
    Search(const drawing::FontMetrics& fonts, std::string family) : fonts_(fonts), family_(std::move(family)) {}

    void look_at(const base::Origin& origin, const std::string& text, const std::string& hole = "") {
        const std::vector<unsigned> missing = drawing::missing_letters(fonts_, drawing::FontFace::regular, text);
        if (missing.empty() || !told_.insert({origin.table, text}).second) return;
        std::string letters;
        for (const unsigned code : std::set<unsigned>(missing.begin(), missing.end()))
            letters += fmt::format("{}U+{:04X}", letters.empty() ? "" : ", ", code);
        findings.push_back({&letter_not_in_font, origin, hole,
                            "\"" + text + "\" holds letters that the font " + family_ + " lacks (" + letters +
                                "): sheets show \"" + drawing::drawable(fonts_, drawing::FontFace::regular, text) + "\""});
    }

    std::vector<base::Finding> findings;

private:
    const drawing::FontMetrics& fonts_;
    std::string family_;
    std::set<std::pair<std::string, std::string>> told_;
};

void look_at_project(Search& search, const settings::Project& project) {
    const auto said_in = [&](std::size_t line) { return base::Origin{"project", project.file, line}; };
    const settings::TitleBlock& block = project.title_block;
    for (const std::string* text :
         {&project.name, &project.crs, &block.owner, &block.number, &block.created_by, &block.approved_by, &block.status})
        search.look_at(said_in(0), *text);
    for (const settings::VeinSetting& vein : project.veins) search.look_at(said_in(vein.line), vein.name);
    for (const settings::FaultSetting& fault : project.faults) search.look_at(said_in(fault.line), fault.name);
}

}  // namespace

const std::vector<const base::Check*>& checks() {
    static const std::vector<const base::Check*> all = {&letter_not_in_font, &news_untold_check()};
    return all;
}

std::vector<base::Finding> missing_letters(const settings::Project& project, const tables::Records& records,
                                           const drawing::FontMetrics& fonts, const std::string& font_family) {
    Search search(fonts, font_family);
    look_at_project(search, project);
    for (const tables::Collar& collar : records.collars)
        for (const std::string& text : {collar.hole, collar.core_size, collar.target ? collar.target->name : std::string()})
            search.look_at(collar.origin, text, collar.hole);
    for (const tables::Pick& pick : records.picks)
        for (const std::string* text : {&pick.zone, &pick.comment}) search.look_at(pick.origin, *text, pick.hole);
    for (const tables::GeologyInterval& interval : records.geology) search.look_at(interval.origin, interval.rock, interval.hole);
    for (const tables::Structure& structure : records.structures)
        search.look_at(structure.origin, structure.kind, structure.hole);
    for (const tables::MineralInterval& interval : records.minerals)
        search.look_at(interval.origin, interval.mineral, interval.hole);
    for (const tables::DrillingEvent& event : records.drilling)
        for (const std::string* text : {&event.kind, &event.note}) search.look_at(event.origin, *text, event.hole);
    for (const tables::SizeInterval& interval : records.sizes) search.look_at(interval.origin, interval.size, interval.hole);
    for (const tables::Pad& pad : records.pads) search.look_at(pad.origin, pad.pad);
    return std::move(search.findings);
}

}  // namespace selvage::sheets
