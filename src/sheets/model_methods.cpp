#include "sheets/methods_words.h"

#include "base/text.h"
#include "sheets/chance_table.h"
#include "sheets/clearance.h"
#include "sheets/finding_groups.h"
#include "sheets/label_text.h"

#include <cmath>
#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

std::string percent(double share) { return base::fixed(100.0 * share, 0) + " %"; }

std::string vein_words(const veins::Vein& vein, const base::MapFrame& frame) {
    const veins::VeinSummary& summary = vein.summary();
    return vein.name() + ": " + count_words(summary.intercepts, "intercept") + ", " + count_words(summary.no_vein, "hole") +
           " without it, " + std::to_string(summary.oriented) + " with oriented core; holes " +
           length_text(summary.hole_spacing, frame, 0) + " apart; modelled to " + length_text(summary.step_out, frame, 0) +
           " from a hit or outcrop. Its swells are about " + length_text(summary.range, frame, 0) +
           " long: places further apart than that tell little of each other. It leans off its mean plane by about " +
           base::fixed(base::Angle::radians(std::atan(summary.slope_sd)).degrees(), 1) +
           "° (one standard deviation), one way here and another there.";
}

TextSection surface_section(const Results& results) {
    TextSection section{"The veins' surfaces", {}};
    if (results.veins.empty()) {
        section.paragraphs.push_back(
            "No vein could be modelled: none has an intercept, an outcrop or a stated point and attitude.");
        return section;
    }
    section.paragraphs.push_back(
        "A vein's mid-surface is a height over its mean plane. It is the likeliest smooth surface through the contacts' depths "
        "and "
        "along the planes of oriented core, each held to by as much as its own error allows, and it says how sure it is at each "
        "place (a Gaussian process). How far and how steeply it swells is not fixed but weighed over many "
        "settings, so that few holes make wide ranges. The walls as drawn pass through every contact. Nothing is drawn further "
        "off "
        "than the distance below, nor beyond half way to a hole that passed and found none, nor past ground, property, a fault "
        "or "
        "a younger vein.");
    for (const veins::Vein& vein : results.veins) section.paragraphs.push_back("– " + vein_words(vein, results.records.frame));
    return section;
}

TextSection content_section() {
    return {
        "Thickness, grade, presence",
        {"True thickness (TW) is square to the vein: by the modelled plane where it has three intercepts or more, else by the "
         "contacts' planes, else by the core axis angle, else not known; the table says which. Between holes, the logarithms of "
         "thickness and grade are modelled, so that one rich hole does not lift all round it. Presence is the chance that the "
         "vein is there, from hits and misses: low and nil results count like any other.",
         "Only holes in which the vein is absent or was not logged count as misses; a hole that stopped short, lost its core or "
         "stands in a fault's gap says nothing."}};
}

std::string coverage_words(const Results& results) {
    std::string words;
    for (const veins::Vein& vein : results.veins)
        if (!vein.fit().empty())
            words += (words.empty() ? "" : "; ") + vein.name() + " " + percent(vein.summary().coverage80) + " of " +
                     std::to_string(vein.fit().size()) + ", rms " +
                     length_text(vein.summary().residual_rms, results.records.frame);
    if (words.empty()) return "No vein has enough intercepts for its own holes to test the model.";
    return "How the ranges held here, each intercept foretold from all the others (80 % should come within): " + words + ".";
}

TextSection forecast_section(const Results& results) {
    const base::MapFrame& frame = results.records.frame;
    TextSection section{"Forecasts", {}};
    section.paragraphs.push_back(
        "Where a planned or active hole will meet a vein is worked out as a whole curve of chance: the error of the surface, of "
        "the "
        "surveys and of where the hole will run are taken together, with what they share. \"Likely\" is its median; of ten such "
        "holes eight come between the two depths. The geologist is called where one hole in fifty has met the vein; the hole is "
        "stopped where all but one in a hundred have, plus " +
        length_text(results.project.plan.tail, frame, 0) +
        " of foot wall. Both are printed whole and on the safe side: the call rounded up the hole, the stop down it. "
        "Thickness and grade are told as though the vein were there.");
    section.paragraphs.push_back(coverage_words(results));
    if (const std::string told = told_chances_words(results, true); !told.empty())
        section.paragraphs.push_back(
            "How the chances of the vein came out, each drilled place foretold from all the others: " + told + ".");
    return section;
}

TextSection step_out_section(const Results& results) {
    const base::MapFrame& frame = results.records.frame;
    const settings::Plan& plan = results.project.plan;
    const settings::Rig& rig = results.project.rig;
    TextSection section{"Step-outs", {}};
    const auto weight = [&](std::size_t i) { return i < plan.weights.size() ? base::significant(plan.weights[i], 2) : "0"; };
    section.paragraphs.push_back(
        count_words(results.step_outs.size(), "place") + " proposed of " + std::to_string(plan.count) +
        " asked for. Each is chosen as though the planned holes and the earlier ranks were drilled, by information (weight " +
        weight(0) + "), value (" + weight(1) + ") and cost (" + weight(2) +
        "). Information is by how much the mean variance of the vein's "
        "place falls over the ground not drilled yet; value is the chance of the vein times its expected grade and thickness, no "
        "more than the vein's largest. A straight hole must get there at a dip of " +
        base::fixed(rig.dip_min.degrees(), 0) + " to " + base::fixed(rig.dip_max.degrees(), 0) + "°, within " +
        length_text(rig.length_max, frame, 0) + ", at " + base::fixed(plan.angle_min.degrees(), 0) + "° or more to the vein, " +
        length_text(plan.clearance, frame, 0) + " clear of other holes and known workings. " + beside_rule_words(frame));
    return section;
}

}  // namespace

std::vector<TextSection> model_methods(const Results& results) {
    std::vector<TextSection> sections{surface_section(results)};
    if (results.veins.empty()) return sections;
    sections.push_back(content_section());
    sections.push_back(forecast_section(results));
    sections.push_back(step_out_section(results));
    return sections;
}

}  // namespace selvage::sheets
