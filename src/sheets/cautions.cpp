#include "sheets/cautions.h"

#include "paths/locate.h"
#include "sheets/clearance.h"
#include "sheets/label_text.h"
#include "sheets/openings_words.h"

#include <algorithm>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr std::size_t named_holes = 4, named_letters = 80;  // no more are named one by one

// "A-1, A-2: "; `kind` in the place of many.
std::string head_of(const std::vector<std::string>& holes, const std::string& kind) {
    std::string head;
    for (const std::string& hole : holes) head += (head.empty() ? "" : ", ") + hole;
    const bool are_many = holes.size() > named_holes || head.size() > named_letters;
    return holes.empty() || are_many ? kind + ": " : head + ": ";
}

// "A-3: drilled to 210 m, what lies ahead of its last survey is a forecast".
std::string active_words(const std::vector<const paths::Path*>& holes, const base::MapFrame& map) {
    std::vector<std::string> names;
    std::string depths;
    for (const paths::Path* hole : holes) {
        names.push_back(hole->hole);
        depths += (depths.empty()                 ? ""
                   : names.size() == holes.size() ? " and "
                                                  : ", ") +
                  length_text(hole->drilled_depth, map, 0);
    }
    const std::string head = head_of(names, "Active holes");
    const bool named = head.compare(0, names.front().size(), names.front()) == 0;
    return head + (named ? "drilled to " + depths + ", " : "") + "what lies ahead of " + (holes.size() == 1 ? "its" : "their") +
           " last survey is a forecast";
}

// "NI 43-101, 2011"; empty where the project names none.
std::string code_words(const settings::Disclosure& disclosure) {
    return disclosure.code + (disclosure.code.empty() || disclosure.edition.empty() ? "" : ", " + disclosure.edition);
}

std::string to_be_cleared() {
    return "permits, buried services, old workings, ground and water pressure to be cleared by the responsible licensed people "
           "under local rules.";
}

// "CH-26 (CH-17 3.8 m off at 6 m and 3 more) COMES TOO NEAR other holes: not to be drilled as planned. "
std::string too_near_caution(const std::vector<std::string>& holes, const std::string& order) {
    constexpr std::size_t most_named = 3;  // the foot of a sheet holds no more
    if (holes.empty()) return "";
    std::string words;
    for (std::size_t i = 0; i < std::min(holes.size(), most_named); ++i) words += (i == 0 ? "" : ", ") + holes[i];
    if (holes.size() > most_named) words += " and " + std::to_string(holes.size() - most_named) + " more, see their cards,";
    return words + (holes.size() == 1 ? " COMES" : " COME") + " TOO NEAR other holes: " + order + ". ";
}

}  // namespace

std::string working_document_caution() { return "Working document, not for release."; }

std::string draft_caution(const settings::Disclosure& disclosure, const std::string& run_name) {
    const std::string code = code_words(disclosure);
    return "Draft, not for release. Figures are the project's own tables (run " + run_name +
           "). A qualified or competent person has to check, complete and approve all of it under " +
           (code.empty() ? "the code that applies" : code) +
           " before any part is made public. The line of the vein between the holes shown is not proven.";
}

std::string head_caution(const drawing::ContentLook& content, const settings::Disclosure& disclosure,
                         const std::string& run_name) {
    return content.public_draft ? draft_caution(disclosure, run_name) : working_document_caution();
}

std::string interpretation_caution(const faults::Events& events) {
    std::string caution = "An interpretation from the holes shown, not an estimate of a mineral resource or reserve.";
    std::string unmoved;
    for (const faults::Fault& fault : events.faults)
        if (!fault.slip_given) unmoved += (unmoved.empty() ? "" : ", ") + fault.name;
    if (!unmoved.empty())
        caution += " Slip not given (" + unmoved + "): veins are cut there but not moved; near it, ranges are not to be trusted.";
    std::string unused;
    for (const std::string& name : events.names) {
        const bool placed =
            std::any_of(events.faults.begin(), events.faults.end(), [&](const auto& fault) { return fault.name == name; });
        const bool ordered = std::find(events.order.begin(), events.order.end(), name) != events.order.end();
        if (!placed || !ordered) unused += (unused.empty() ? "" : ", ") + name;
    }
    if (!unused.empty()) caution += " Not applied (" + unused + "): near it, veins and forecasts are not to be trusted.";
    return caution;
}

std::string planned_hole_caution(const std::vector<std::string>& holes) {
    return head_of(holes, "Planned holes") + "planned position only; survey, " + to_be_cleared();
}

std::string position_caution(const std::vector<std::string>& holes, const Results& results) {
    std::vector<std::string> planned;
    std::vector<const paths::Path*> active;
    for (const paths::Path& path : results.paths) {
        if (std::find(holes.begin(), holes.end(), path.hole) == holes.end()) continue;
        if (path.status == tables::HoleStatus::active && goes_on(path, results)) active.push_back(&path);
        if (path.status == tables::HoleStatus::planned) planned.push_back(path.hole);
    }
    if (active.empty()) return planned.empty() ? "" : planned_hole_caution(planned);
    const std::string ahead = active_words(active, results.records.frame);
    if (planned.empty()) return ahead + "; " + to_be_cleared();
    return ahead + ". " + planned_hole_caution(planned);
}

std::string holes_ahead_caution(const std::vector<std::string>& holes, const Results& results) {
    std::vector<std::string> active, planned;
    for (const paths::Path& path : results.paths) {
        const bool is_active = path.status == tables::HoleStatus::active;
        if (!is_active && path.status != tables::HoleStatus::planned) continue;
        if (std::find(holes.begin(), holes.end(), path.hole) == holes.end()) continue;
        const std::vector<planning::NearHole> near = near_ahead(path, results).under;
        if (near.empty()) continue;
        const std::string more = near.size() > 1 ? " and " + std::to_string(near.size() - 1) + " more" : "";
        (is_active ? active : planned)
            .push_back(path.hole + " (" + near_hole_words(near.front(), results.records.frame) + more + ")");
    }
    return too_near_caution(active, "to be steered") + too_near_caution(planned, "not to be drilled as planned") +
           position_caution(holes, results);
}

std::string holes_ahead_caution(const Results& results) {
    std::vector<std::string> holes;
    for (const paths::Path& path : results.paths) holes.push_back(path.hole);
    const std::string caution = holes_ahead_caution(holes, results);
    return caution.empty() && !results.step_outs.empty() ? planned_hole_caution({}) : caution;
}

std::vector<std::string> safety_cautions(const std::string& document, const Results& results) {
    return {
        document +
            " is no permit and no instruction to drill. Local codes, the law of the place, the mine's or contractor's own "
            "procedures and the practice of licensed professionals go before anything that stands here; where they differ from "
            "it, "
            "they hold.",
        "Before the rig is set up, those responsible clear: permits and access; the surveyed collar, azimuth and dip; buried and "
        "overhead services; old workings and voids, mapped or not; ground stability; gas; water, artesian or under pressure; "
        "other holes. Depths are forecasts from few holes: a danger may come earlier or later than it says, and what is not "
        "listed "
        "may still be there.",
        "Ground, water or gas not as expected, a void, loss of return, rods that drop: stop, make safe, call. " +
            workings_known_words(results)};
}

std::vector<std::string> drill_site_cautions(const std::string& hole, const Results& results) {
    std::vector<std::string> cautions{position_caution({hole}, results)};
    for (std::string& caution : safety_cautions("This card", results)) cautions.push_back(std::move(caution));
    return cautions;
}

std::string public_report_caution(const settings::Disclosure& disclosure) {
    const std::string code = code_words(disclosure);
    return "Nothing here may be made public as it stands. A public report of drilling results is bound by the code that applies "
           "(" +
           (code.empty() ? std::string("none is named in the project file") : code + " as the project file says") +
           "); a qualified or competent person under that code has to check, complete and approve all of it, high, low and nil "
           "results alike. How samples were taken, prepared, assayed and controlled is not judged here.";
}

std::string judgement_caution() {
    return "An aid to people who know the ground, and no substitute for their professional judgement. A range of 8 in 10 holds "
           "for "
           "about eight of ten such forecasts: any single one may fail, and more often where the vein does what no hole has "
           "shown "
           "so far.";
}

std::string input_caution(std::size_t errors, std::size_t warnings) {
    const auto counted = [](std::size_t count, const std::string& one) {
        return std::to_string(count) + " " + one + (count == 1 ? "" : "s");
    };
    std::string words;
    if (errors > 0) words = counted(errors, "error") + " (rows left out, cut or read as empty)";
    if (warnings > 0) words += (words.empty() ? "" : ", ") + counted(warnings, "warning");
    return words.empty() ? words : "Input: " + words + ": see the checks.";
}

std::string workings_caution() { return "Old workings as given: maps of old workings are often incomplete."; }

std::string thickness_caution() { return "TW: true thickness; DH: down hole."; }

}  // namespace selvage::sheets
