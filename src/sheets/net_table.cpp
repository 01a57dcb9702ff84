#include "sheets/net_table.h"

#include "base/text.h"
#include "drawing/clipping.h"
#include "drawing/symbols.h"
#include "numerics/directions.h"
#include "sheets/label_text.h"
#include "sheets/legend_signs.h"
#include "sheets/pole_density.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

namespace {

constexpr double row_height = 5.0;

std::string attitude_words(const base::Attitude& attitude) {
    return base::fixed(attitude.dip.degrees(), 0) + "° to " + bearing_text(attitude.dip_direction);
}

// "225/34": trend and plunge of the pole, down.
std::string pole_words(const base::Attitude& attitude) {
    const base::Direction down = base::direction_of(-base::upward_normal(attitude));
    return bearing_text(down.azimuth).substr(0, 3) + "/" + base::fixed(std::abs(down.dip.degrees()), 0);
}

base::Angle between(const base::Attitude& a, const base::Attitude& b) {
    const double cosine = std::abs(base::upward_normal(a).dot(base::upward_normal(b)));
    return base::Angle::radians(std::acos(std::min(1.0, cosine)));
}

class Table {
public:
    Table(const Box& room, const Tools& tools) : room_(room), tools_(tools), y_(room.top) {}
    void heading(const std::string& text) {
        y_ -= row_height;
        marks.push_back(words({room_.left, y_}, text, tools_.style.text("heading")));
        y_ -= 1.8;
        rule();
    }
    void rule() { marks.push_back(line_of({{room_.left, y_}, {room_.right, y_}}, tools_.style.line("table_rule"))); }
    void row(const std::vector<std::string>& cells, const char* first, const char* others) {
        y_ -= row_height;
        for (std::size_t i = 0; i < cells.size(); ++i)
            marks.push_back(words({room_.left + shares[i] * room_.width(), y_ + 1.2}, cells[i],
                                  tools_.style.text(i == 0 ? first : others),
                                  i == 0 ? drawing::Anchor::left : drawing::Anchor::right));
    }
    void text(const std::string& said) {
        for (const std::string& line : drawing::wrapped(tools_.fonts, tools_.style.text("table_text"), said, room_.width())) {
            y_ -= tools_.style.size_mm("leading") + 0.3;
            marks.push_back(words({room_.left, y_}, line, tools_.style.text("table_text")));
        }
        y_ -= 1.0;
    }
    void gap(double mm) { y_ -= mm; }

    Marks marks;
    const std::vector<double> shares{0.0, 0.15, 0.47, 0.63, 0.79, 1.0};

private:
    Box room_;
    const Tools& tools_;
    double y_;
};

std::string count_words(const PoleGroup& group) {
    std::string said = std::to_string(group.used.size()) + " poles used";
    if (!group.shown_only.empty())
        said += "; " + std::to_string(group.shown_only.size()) +
                " of quality 4 (not to be trusted, by the table of structures) shown, not used";
    if (group.unoriented > 0) said += "; " + std::to_string(group.unoriented) + " rows without orientation left out";
    std::size_t in_sets = 0;
    for (const orientation::StructureSet& set : group.sets) in_sets += set.count;
    return said + "; " + std::to_string(group.used.size() - std::min(in_sets, group.used.size())) + " of no set.";
}

void add_model(Table& table, const PoleGroup& group, const Results& results) {
    const veins::VeinSummary& summary = results.veins[*group.vein_number].summary();
    table.gap(3.0);
    table.heading("The modelled vein");
    table.row({"model", "", attitude_words(summary.attitude), pole_words(summary.attitude), "", ""}, "table_strong",
              "table_text");
    table.rule();
    if (group.sets.empty()) return;
    const orientation::StructureSet& first = group.sets.front();
    const base::Angle off = between(summary.attitude, first.attitude);
    const bool within = !(first.cone95 < off);
    table.text("The model's mean plane and the mean of set " + std::to_string(first.number) + " are " +
               base::fixed(off.degrees(), 1) + "° apart, " + (within ? "within" : "outside") + " the set's cone of 95 %.");
}

// How a modelled fault stands to the sets: a set gathers poles within `shown_within` of its middle.
void add_faults(Table& table, const PoleGroup& group) {
    const base::Angle shown_within = base::Angle::degrees(30.0);
    table.gap(3.0);
    table.heading(group.faults.size() == 1 ? "The modelled fault" : "The modelled faults");
    for (const faults::Fault* fault : group.faults) {
        const base::Attitude attitude = base::attitude_of_normal(fault->plane.normal);
        table.row({"", "", attitude_words(attitude), pole_words(attitude), "", ""}, "table_strong", "table_text");
        const auto nearest = std::min_element(group.sets.begin(), group.sets.end(), [&](const auto& one, const auto& other) {
            return between(one.attitude, attitude) < between(other.attitude, attitude);
        });
        if (nearest == group.sets.end()) {
            table.text(fault->name + ": no set to hold it against.");
            continue;
        }
        const base::Angle off = between(nearest->attitude, attitude);
        table.text(fault->name + "'s pole lies " + base::fixed(off.degrees(), 0) + "° from that of set " +
                   std::to_string(nearest->number) +
                   ", the nearest: " + (shown_within < off ? "the core does not show it." : "the core may show it."));
    }
    table.rule();
}

std::vector<Point> middle_line(const Box& box) {
    const double y = (box.bottom + box.top) / 2.0;
    return {{box.left, y}, {box.right, y}};
}

LegendEntry line_sign(const std::string& said, const drawing::LineLook& look) {
    return {said, [look](const Box& box) { return Marks{line_of(middle_line(box), look)}; }};
}

LegendEntry symbol_sign(const std::string& said, const char* name, double width, const Tools& tools) {
    return {said, [name, width, &tools](const Box& box) {
                drawing::SymbolLook look;
                look.edge = tools.style.line("symbol_ring");
                look.fill = plain(tools.style.colour("white"));
                Marks marks;
                for (drawing::Shape& shape :
                     drawing::symbol(name, {(box.left + box.right) / 2.0, (box.bottom + box.top) / 2.0}, width, look))
                    marks.emplace_back(std::move(shape));
                return marks;
            }};
}

LegendEntry dot_sign(const std::string& said, const drawing::Colour& colour, const Tools& tools) {
    return {said, [colour, &tools](const Box& box) {
                return Marks{ring({(box.left + box.right) / 2.0, (box.bottom + box.top) / 2.0}, 0.75,
                                  tools.style.line("symbol_edge"), plain(colour))};
            }};
}

LegendEntry density_sign(const std::string& said, std::size_t level, const Tools& tools) {
    return {said, [level, &tools](const Box& box) {
                return Marks{box_area(box, density_fill(level, tools)), box_outline(box, tools.style.line("isoline"))};
            }};
}

LegendEntry blind_sign(const Tools& tools) {
    return {"planes that every hole with oriented core could meet at under " +
                base::fixed(base::Angle::radians(std::asin(blind_sine())).degrees(), 0) + "° only",
            [&tools](const Box& box) {
                const std::vector<Point> ring{
                    {box.left, box.bottom}, {box.right, box.bottom}, {box.right, box.top}, {box.left, box.top}};
                Marks marks{box_outline(box, tools.style.line("blind_hatch"))};
                for (const drawing::Segment& stroke : drawing::hatch({ring}, 0.785, 1.6))
                    marks.push_back(line_of({stroke.a, stroke.b}, tools.style.line("blind_hatch")));
                return marks;
            }};
}

}  // namespace

std::string group_words(const PoleGroup& group) {
    const std::string many = group.kind.empty() ? "structures" : group.kind + (group.kind.back() == 's' ? "" : "s");
    return group.vein.empty() ? many : group.vein + " " + many;
}

std::string net_sentence(const PoleGroup& group) {
    return "Poles of " + std::to_string(group.used.size()) + " " + group_words(group) +
           "  ·  lower hemisphere, equal area  ·  grid north up";
}

drawing::FillLook density_fill(std::size_t level, const Tools& tools) {
    return plain(paled(tools.style.colour("density"), static_cast<double>(level + 1) / static_cast<double>(most_density_levels)));
}

double blind_sine() { return 1.0 / numerics::terzaghi_weight(base::Angle::degrees(0.0)); }

Marks net_table(const PoleGroup& group, const Results& results, const Box& room, const Tools& tools) {
    Table table(room, tools);
    table.heading("Sets: cones of 30°, the fullest first");
    table.row({"set", "n", "dip to direction", "pole", "kappa", "cone 95 %"}, "table_head", "table_head");
    table.rule();
    for (const orientation::StructureSet& set : group.sets)
        table.row({std::to_string(set.number), std::to_string(set.count), attitude_words(set.attitude), pole_words(set.attitude),
                   base::significant(set.kappa, 3),
                   set.cone95.degrees() < 180.0 ? base::fixed(set.cone95.degrees(), 1) + "°" : "not known"},
                  "table_strong", "table_text");
    table.rule();
    if (group.sets.empty())
        table.text(group.chance_sets == 0 ? "No three poles lie within such a cone."
                                          : std::to_string(group.chance_sets) + " in sets.csv, none denser than chance.");
    else if (group.chance_sets > 0)
        table.text(std::to_string(group.chance_sets) + " more in sets.csv, no denser than chance.");
    table.text(count_words(group));
    std::vector<Eigen::Vector3d> poles;
    for (const orientation::Orientation* row : group.used) poles.push_back(*row->pole);
    if (poles.size() >= 3) {
        const numerics::AxisShape shape = numerics::axis_shape(poles);
        table.gap(3.0);
        table.heading("All poles together, without weights");
        table.text("Eigenvalues " + base::fixed(shape.eigenvalues[0], 3) + ", " + base::fixed(shape.eigenvalues[1], 3) + ", " +
                   base::fixed(shape.eigenvalues[2], 3) +
                   (std::isfinite(shape.k) && std::isfinite(shape.c)
                        ? "; K " + base::significant(shape.k, 3) + " (over 1 a cluster, under 1 a girdle), C " +
                              base::significant(shape.c, 3) + " (strength; Woodcock 1977)."
                        : "."));
    }
    if (group.vein_number) add_model(table, group, results);
    if (!group.faults.empty()) add_faults(table, group);
    return std::move(table.marks);
}

std::vector<LegendGroup> net_legend(const PoleGroup& group, const std::vector<double>& levels, bool mean_planes, bool blind,
                                    const Tools& tools) {
    const drawing::Colour colour = group.vein_number ? vein_colour(*group.vein_number, tools) : tools.style.colour("ink");
    LegendGroup poles{"Measured on oriented core", {}}, sets{"Sets", {}}, density{"Density over an even spread", {}},
        model{"", {}};
    if (!group.used.empty()) poles.entries.push_back(dot_sign("pole", tools.style.colour("ink"), tools));
    if (!group.shown_only.empty())
        poles.entries.push_back(
            dot_sign("pole of quality 4, the poorest of 1 to 4: not used", tools.style.colour("white"), tools));
    if (!group.sets.empty()) {
        sets.entries.push_back(symbol_sign("mean pole, with the set's number", "square", 3.0, tools));
        if (mean_planes) sets.entries.push_back(line_sign("mean plane", with_colour(tools.style.line("trace"), colour)));
        if (mean_planes) sets.entries.push_back(line_sign("cone of 95 % about the mean", tools.style.line("cone95")));
    }
    for (std::size_t i = 0; i < levels.size(); ++i)
        density.entries.push_back(density_sign("over " + base::fixed(levels[i], 0) + " standard deviations", i, tools));
    if (group.vein_number) {
        model.heading = "Modelled vein";
        model.entries.push_back(symbol_sign("its mean pole", "diamond", 3.4, tools));
        model.entries.push_back(line_sign("its mean plane", tools.style.line("wall_approximate")));
    }
    if (!group.faults.empty()) {
        model.heading = "Modelled fault";
        model.entries.push_back(symbol_sign("its pole", "diamond", 3.4, tools));
    }
    std::vector<LegendGroup> groups{poles, sets, density, model};
    if (blind) groups.push_back({"Blind zone of the drilling", {blind_sign(tools)}});
    groups.erase(std::remove_if(groups.begin(), groups.end(), [](const LegendGroup& one) { return one.entries.empty(); }),
                 groups.end());
    return groups;
}

std::vector<std::string> net_methods(const PoleGroup& group, const std::vector<double>& levels, bool blind) {
    std::vector<std::string> lines{
        "weights\tTerzaghi yes: 1/sine of the angle between hole and plane, held from 20° down (Terzaghi 1965)",
        "mean\tFisher (1953), with those weights; kappa (n-1)/(n-R): how tight, the higher the tighter"};
    if (blind)
        lines.push_back(
            "blind zone\tfew planes of it come into core: few poles there, or none, say nothing; each that does "
            "counts up to " +
            base::fixed(1.0 / blind_sine(), 1) + " times, which swells sets there and draws their means in");
    if (group.sets.size() + group.chance_sets > 0)
        lines.push_back("set\tdenser at its mean than an even spread by " + base::fixed(dense_by_chance, 1) +
                        " standard deviations: one even spread in twenty or so holds as dense a one by chance");
    if (!levels.empty())
        lines.emplace_back("density\tKamb (1959), exponential as Vollmer (1995), with the same weights");
    else if (!group.used.empty())
        lines.emplace_back("density\tnot contoured: under ten poles, or no denser than by chance");
    return lines;
}

}  // namespace selvage::sheets
