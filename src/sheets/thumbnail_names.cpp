#include "sheets/thumbnail_names.h"

#include "drawing/polyline.h"
#include "sheets/finding_groups.h"
#include "sheets/long_section_marks.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <sstream>
#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr std::size_t most_named = 14;

drawing::Label name_of(const std::string& name, const Point& at, const drawing::TextLook& look, int priority,
                       double clear_mm = 1.8) {
    drawing::Label label;
    label.owner = name;
    label.at = at;
    label.lines = {{name, look}};
    label.priority = priority;
    label.clear_mm = clear_mm;
    label.may_be_listed = false;
    return label;
}

constexpr char between_owners = '\n';
constexpr double together_mm = 2.4;  // signs nearer than this hide each other: beside one a name would be read as the other's

std::vector<std::string> owners_of(const drawing::Label& label) {
    std::vector<std::string> owners;
    std::istringstream all(label.owner);
    for (std::string owner; std::getline(all, owner, between_owners);) owners.push_back(owner);
    return owners;
}

bool same_look(const drawing::Label& a, const drawing::Label& b) {
    const drawing::TextLook &one = a.lines.front().look, &other = b.lines.front().look;
    return one.face == other.face && one.colour == other.colour;
}

// Names of one look whose signs stand on one another are one label, beside both.
std::vector<drawing::Label> joined(const std::vector<drawing::Label>& names) {
    std::vector<drawing::Label> made;
    for (const drawing::Label& name : names) {
        const auto same = std::find_if(made.begin(), made.end(), [&](const drawing::Label& other) {
            return drawing::length_of(other.at.x - name.at.x, other.at.y - name.at.y) < together_mm && same_look(other, name);
        });
        if (same == made.end()) {
            made.push_back(name);
            continue;
        }
        const std::vector<std::string> owners = owners_of(*same);
        if (std::find(owners.begin(), owners.end(), name.owner) == owners.end()) {
            same->lines.front().text += ", " + name.owner;
            same->owner += between_owners + name.owner;
        }
        const Point middle{(same->at.x + name.at.x) / 2.0, (same->at.y + name.at.y) / 2.0};
        same->clear_mm = std::max(same->clear_mm, name.clear_mm) + drawing::length_of(middle.x - name.at.x, middle.y - name.at.y);
        same->at = middle;
        same->may_lead = same->may_lead || name.may_lead;
        same->priority = std::max(same->priority, name.priority);
    }
    return made;
}

// Beside another's sign words would seem that one's.
void keep_off(std::vector<drawing::Label>& names, const std::vector<Point>& signs) {
    for (drawing::Label& name : names)
        for (const Point& sign : signs)
            if (drawing::length_of(sign.x - name.at.x, sign.y - name.at.y) > name.clear_mm) name.not_at.push_back(sign);
}

}  // namespace

std::vector<drawing::Label> named_holes(const LongSectionContent& content, const PaperFrame& frame,
                                        const std::set<std::string>& named, const Tools& tools) {
    std::vector<drawing::Label> names;
    const drawing::TextLook& ink = tools.style.text("body_strong");
    const auto add = [&](const std::string& hole, const Eigen::Vector2d& place, const drawing::TextLook& look, int priority) {
        if (named.count(hole) > 0 && names.size() < most_named)
            names.push_back(name_of(hole, frame.paper_from_drawn(place), look, priority));
    };
    for (const PierceOnPlane& pierce : content.pierces)
        add(pierce.pierce->hole, pierce.place, tools.style.text("planned_strong"), 4);
    for (const HitOnPlane& hit : content.hits) add(hit.hit->hole, hit.place, ink, 5);
    for (const MissOnPlane& miss : content.misses) add(miss.none->hole, miss.place, ink, 5);
    std::vector<Point> signs;
    for (const HitOnPlane& hit : content.hits) signs.push_back(frame.paper_from_drawn(hit.place));
    for (const MissOnPlane& miss : content.misses) signs.push_back(frame.paper_from_drawn(miss.place));
    for (const PierceOnPlane& pierce : content.pierces) signs.push_back(frame.paper_from_drawn(pierce.place));
    names = joined(names);
    keep_off(names, signs);
    return names;
}

std::vector<drawing::Label> named_round_ranks(const LongSectionContent& content, const PaperFrame& frame, double near_m,
                                              const Tools& tools) {
    std::vector<drawing::Label> names;
    std::vector<Point> signs;
    const auto on_paper = [&](const Eigen::Vector2d& place) {
        signs.push_back(frame.paper_from_drawn(place));
        return signs.back();
    };
    const drawing::TextLook& body = tools.style.text("body");
    const double ticks = tools.style.size_mm("planned_pierce") / 2.0 + tools.style.size_mm("planned_pierce_tick");
    for (const PierceOnPlane& pierce : content.pierces)
        names.push_back(name_of(pierce.pierce->hole, on_paper(pierce.place), tools.style.text("planned_strong"), 4, ticks));
    for (const MissOnPlane& miss : content.misses)
        names.push_back(
            name_of(miss.none->hole, on_paper(miss.place), body, 5, hit_symbol_width_mm(HitSign::no_vein, tools) / 2.0));
    for (const HitOnPlane& hit : content.hits) {
        const Point at = on_paper(hit.place);
        const bool near = std::any_of(content.step_outs.begin(), content.step_outs.end(),
                                      [&](const StepOutOnPlane& rank) { return (rank.place - hit.place).norm() <= near_m; });
        if (!near) continue;
        names.push_back(name_of(hit.hit->hole, at, body, 3, hit_symbol_width_mm(hit.sign, tools) / 2.0));
        names.back().may_lead = false;
    }
    names = joined(names);
    keep_off(names, signs);
    return names;
}

std::vector<drawing::Label> fault_names(const FaultsOnPlane& faults, const Tools& tools) {
    std::vector<drawing::Label> names;
    for (std::size_t i = 0; i < faults.names.size(); ++i) {
        const auto longest = std::max_element(faults.ends[i].begin(), faults.ends[i].end(), [](const auto& a, const auto& b) {
            return drawing::length_of(a) < drawing::length_of(b);
        });
        if (longest == faults.ends[i].end() || longest->empty()) continue;
        names.push_back(name_of(faults.names[i], (*longest)[longest->size() / 2], tools.style.text("body"), 3));
    }
    return names;
}

SetNames set_names(const std::vector<drawing::Label>& names, const std::vector<Box>& taken, const LongSectionContent& content,
                   const PaperFrame& frame, const Tools& tools) {
    drawing::Obstacles obstacles;
    obstacles.boxes = symbol_boxes(content, frame, tools);
    obstacles.boxes.insert(obstacles.boxes.end(), taken.begin(), taken.end());
    drawing::LabelRules rules;
    rules.window = drawing::grown(frame.window, -0.8);
    rules.leader_max_mm = 18.0;
    SetNames set;
    for (const drawing::PlacedLabel& one : drawing::place_labels(names, obstacles, rules, tools.fonts).labels) {
        if (one.placing == drawing::Placing::listed) continue;
        for (std::string& owner : owners_of(names[one.label])) set.named.insert(std::move(owner));
        if (!one.leader.empty()) set.marks.push_back(line_of(one.leader, tools.style.line("leader")));
        for (drawing::Text& text : drawing::texts_of(names[one.label], one, rules, tools.fonts, tools.style.size_mm("halo")))
            set.marks.emplace_back(std::move(text));
    }
    return set;
}

std::string not_named_words(const LongSectionContent& content, const std::set<std::string>& named) {
    const auto left = [&named](const std::string& hole) { return named.count(hole) == 0 ? 1U : 0U; };
    std::size_t hits = 0, misses = 0;
    for (const HitOnPlane& hit : content.hits) hits += left(hit.hit->hole);
    for (const MissOnPlane& miss : content.misses) misses += left(miss.none->hole);
    if (hits + misses == 0) return "";
    const std::string of_misses = std::to_string(misses) + (misses == 1 ? " miss" : " misses");
    return ", " + (hits > 0 ? count_words(hits, "hit") : "") + (hits > 0 && misses > 0 ? " and " : "") +
           (misses > 0 ? of_misses : "") + " not named";
}

}  // namespace selvage::sheets
