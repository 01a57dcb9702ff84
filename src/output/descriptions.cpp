#include "output/write.h"

namespace selvage::output {

namespace {

using Q = Quantity;

TableDescription paths() {
    return {"paths",
            "where every hole runs: a row at each station, every 10 m (30 ft) and at the end; a daughter's begin at its kick-off",
            {{"hole", Q::text, "name as the collar table spells it"},
             {"depth", Q::length, "along the hole from its collar (a daughter's: the parent's collar)"},
             {"east", Q::coordinate, "map coordinate"},
             {"north", Q::coordinate, "map coordinate"},
             {"elevation", Q::coordinate, "map coordinate, up"},
             {"azimuth", Q::azimuth, "of the hole down its path, from grid north"},
             {"dip", Q::angle, "of the hole, positive down"},
             {"sd_east", Q::length_sd, "1 sigma of the position"},
             {"sd_north", Q::length_sd, "1 sigma of the position"},
             {"sd_elevation", Q::length_sd, "1 sigma of the position"},
             {"cov_east_north", Q::covariance, "covariance of the position"},
             {"cov_east_elevation", Q::covariance, "covariance of the position"},
             {"cov_north_elevation", Q::covariance, "covariance of the position"},
             {"kind", Q::text,
              "surveyed, extrapolated (past the last survey, or unsurveyed), forecast (an active hole's rest) or planned"}}};
}

TableDescription orientations() {
    return {"orientations",
            "planes measured on oriented core or given by dip and dip direction; unoriented ones stand in alpha_tests alone",
            {{"hole", Q::text, "name as the collar table spells it"},
             {"depth", Q::length, "along the hole"},
             {"kind", Q::text, "as the structures table names it, lower case"},
             {"vein", Q::text, "that the row names"},
             {"dip", Q::angle, "of the plane, 0 to 90"},
             {"dip_direction", Q::azimuth, "of the plane, from grid north"},
             {"strike", Q::azimuth, "dip direction less 90: the plane dips to its right"},
             {"quality", Q::count, "1 best to 4 (printed, not used)"}}};
}

TableDescription intercepts() {
    return {"intercepts",
            "where holes meet veins, a row an intercept; the point is the middle of the pick",
            {{"hole", Q::text, "name as the collar table spells it"},
             {"vein", Q::text, "name as the project file spells it"},
             {"from", Q::length, "depth of the upper contact, along the hole"},
             {"to", Q::length, "depth of the lower contact, along the hole"},
             {"length", Q::length, "down hole"},
             {"true_thickness", Q::length, "square to the vein; see thickness_from"},
             {"horizontal_width", Q::length, "true thickness over the sine of the dip; empty below a dip of 30"},
             {"angle", Q::angle, "acute, between hole and vein: 90 is a right-angle hit"},
             {"east", Q::coordinate, "map coordinate"},
             {"north", Q::coordinate, "map coordinate"},
             {"elevation", Q::coordinate, "map coordinate, up"},
             {"status", Q::text, "assayed, part assayed, pending or not sampled: by the first analyte"},
             {"<analyte>", Q::grade, "length-weighted over the pick", 1},
             {"<analyte>_<unit>", Q::accumulation, "grade times true thickness", 2},
             {"thickness_from", Q::text,
              "model (the vein's, three or more intercepts), core (mean of the contacts' poles), alpha or unknown"},
             {"thickness_sd", Q::length_sd, "1 sigma of the true thickness"},
             {"state", Q::text, "vein, structure (no fill), void or lost"},
             {"zone", Q::text, "under which the picks were joined"},
             {"recovery", Q::percent, "core recovered, length-weighted over the pick"},
             {"sampled_share", Q::share, "assayed length of the first analyte over the pick's"},
             {"flags", Q::text, "words of a closed list"}}};
}

TableDescription no_vein() {
    return {"no_vein",
            "holes that have no intercept of a vein, and what that means",
            {{"hole", Q::text, "name as the collar table spells it"},
             {"vein", Q::text, "name as the project file spells it"},
             {"depth", Q::length, "where the vein should have been"},
             {"depth_p10", Q::length, "10 % point of that depth"},
             {"depth_p90", Q::length, "90 % point of that depth"},
             {"reason", Q::text, "absent, not logged as vein (both misses), fault gap, lost core, stopped short or not judged"},
             {"presence", Q::presence, "of a miss: chance that the vein is there, from all the others"}}};
}

TableDescription pierce_points() {
    return {"pierce_points",
            "where planned and active holes should pierce the veins, and what they should find there",
            {{"hole", Q::text, "name as the collar table spells it"},
             {"vein", Q::text, "name as the project file spells it"},
             {"depth", Q::length, "median depth of the crossing of the vein's mid-surface, whether or not the vein is there"},
             {"depth_sd", Q::length_sd, "(p90 - p10) / 2.563"},
             {"depth_p10", Q::length, "10 % point"},
             {"depth_p90", Q::length, "90 % point"},
             {"east", Q::coordinate, "of the path at the median depth"},
             {"north", Q::coordinate, "of the path at the median depth"},
             {"elevation", Q::coordinate, "of the path at the median depth, up"},
             {"angle", Q::angle, "acute, between hole and vein"},
             {"true_thickness", Q::length, "median, given that the vein is there"},
             {"thickness_p10", Q::length, "10 % point"},
             {"thickness_p90", Q::length, "90 % point"},
             {"presence", Q::presence, "chance that the vein is there at the crossing"},
             {"<analyte>", Q::grade, "median, given that the vein is there", 1},
             {"<analyte>_p10", Q::grade, "10 % point", 1},
             {"<analyte>_p90", Q::grade, "90 % point", 1},
             {"block", Q::text, "empty where the vein has one block, else the faults' names with + (hanging-wall side) or -"},
             {"call_depth", Q::length, "2 % point of the depth: call the geologist"},
             {"stop_depth", Q::length, "99 % point of the depth and the tail of foot wall"},
             {"chance_reached", Q::presence, "chance that the crossing comes before the hole's end"},
             {"flags", Q::text, "words of a closed list"}}};
}

TableDescription fit() {
    return {
        "fit",
        "leave-one-out: each intercept predicted along its hole from all the others",
        {{"vein", Q::text, "name as the project file spells it"},
         {"hole", Q::text, "name as the collar table spells it"},
         {"predicted_depth", Q::length, "median"},
         {"depth_sd", Q::length_sd, "(p90 - p10) / 2.563"},
         {"actual_depth", Q::length, "middle of the pick"},
         {"residual", Q::length, "actual less predicted"},
         {"predicted_thickness", Q::length, "true thickness, median"},
         {"actual_thickness", Q::length,
          "true thickness, counting half of the core lost in the pick, which may not have been vein; intercepts count all of it"},
         {"depth_p10", Q::length, "10 % point"},
         {"depth_p90", Q::length, "90 % point"},
         {"thickness_p10", Q::length, "10 % point"},
         {"thickness_p90", Q::length, "90 % point"},
         {"presence", Q::presence, "chance that the vein is there, from all the others"},
         {"there", Q::flag, "whether it is: a structure without fill is a miss"}}};
}

TableDescription not_seen_yet() {
    return {"not_seen_yet",
            "an active hole that has not met the vein: the chance that it still lies ahead, metre by metre (every 5 ft)",
            {{"hole", Q::text, "name as the collar table spells it"},
             {"vein", Q::text, "name as the project file spells it"},
             {"depth", Q::length, "along the hole; the first is as deep as it was drilled"},
             {"chance_ahead", Q::presence, "given that the core down to there showed no vein"}}};
}

TableDescription sets() {
    return {"sets",
            "planes measured on oriented core gathered into sets: the fullest cones of 30 degrees with three poles or more",
            {{"kind", Q::text, "as the structures table names it, lower case"},
             {"vein", Q::text, "that the rows name"},
             {"set", Q::count, "within its kind and vein, the fullest first"},
             {"count", Q::count, "poles"},
             {"dip", Q::angle, "of the mean plane, poles weighted for the bias of the hole (1/sin alpha, held to alpha 20)"},
             {"dip_direction", Q::azimuth, "of the mean plane, from grid north"},
             {"kappa", Q::number, "how closely they lie together (Fisher 1953)"},
             {"cone95", Q::angle, "half-angle about the mean within which the true mean lies at 95 %"}}};
}

TableDescription vein_of() {
    return {"vein_of",
            "logged veins that nobody named: the chance of each modelled vein; the rest to 1 is a vein that is not modelled",
            {{"hole", Q::text, "name as the collar table spells it"},
             {"from", Q::length, "as logged, along the hole"},
             {"to", Q::length, "as logged, along the hole"},
             {"vein", Q::text, "name as the project file spells it"},
             {"probability", Q::presence, "by the depth at which that vein should come, and its presence"}}};
}

TableDescription step_outs() {
    return {"step_outs",
            "where the next holes should pierce, the first rank first, each as though the earlier ones were drilled",
            {{"rank", Q::count, "1 is the first"},
             {"vein", Q::text, "name as the project file spells it"},
             {"east", Q::coordinate, "map coordinate of the place on the vein"},
             {"north", Q::coordinate, "map coordinate"},
             {"elevation", Q::coordinate, "map coordinate, up"},
             {"presence", Q::presence, "chance that the vein is there"},
             {"true_thickness", Q::length, "median, given that the vein is there"},
             {"accumulation", Q::accumulation, "presence times the expected grade x thickness, limited at the vein's largest"},
             {"information", Q::area, "fall of the mean variance of position over the ground not drilled yet"},
             {"pad", Q::text, "from which a straight hole reaches it; empty: from the ground"},
             {"azimuth", Q::azimuth, "of that hole at its collar, from grid north"},
             {"dip", Q::angle, "of that hole at its collar, positive down"},
             {"length", Q::length, "of that hole, with the tail of foot wall"},
             {"angle", Q::angle, "acute, between that hole and the vein"},
             {"cost", Q::money,
              "in the money of [rig] cost_per_length; where that is not set 1 a metre of hole, whatever the project's unit"},
             {"target", Q::text, "a name that stays the same where the place is"},
             {"reason", Q::text, "in words"},
             {"collar_east", Q::coordinate, "of that hole, map coordinate"},
             {"collar_north", Q::coordinate, "of that hole, map coordinate"},
             {"collar_elevation", Q::coordinate, "of that hole, up"},
             {"pierce_depth", Q::length, "where that hole meets the vein, along it"}}};
}

TableDescription alpha_tests() {
    return {"alpha_tests",
            "angles to the core axis against those that the modelled vein predicts there",
            {{"hole", Q::text, "name as the collar table spells it"},
             {"depth", Q::length, "along the hole"},
             {"vein", Q::text, "name as the project file spells it"},
             {"alpha", Q::angle, "measured, acute, between core axis and plane"},
             {"predicted_alpha", Q::angle, "by the vein's model"},
             {"alpha_sd", Q::angle, "1 sigma of their difference"}}};
}

TableDescription veins() {
    return {"veins",
            "the modelled veins",
            {{"vein", Q::text, "name as the project file spells it"},
             {"intercepts", Q::count, "that the model stands on"},
             {"no_vein", Q::count, "holes that have none"},
             {"oriented", Q::count, "measured poles that the model stands on"},
             {"dip", Q::angle, "of the area-weighted mean normal within the extent"},
             {"dip_direction", Q::azimuth, "of the area-weighted mean normal within the extent"},
             {"area", Q::area, "on the vein, within the extent"},
             {"range", Q::length, "over which its undulations fade"},
             {"slope_sd", Q::tangent, "1 sigma of the mid-surface's slope"},
             {"thickness_median", Q::length, "true thickness, the data's"},
             {"residual_rms", Q::length_sd, "root mean square of the residuals of fit"},
             {"coverage80", Q::share, "of the intercepts that fell in their 10-90 % range in fit"}}};
}

TableDescription slips() {
    return {"slips",
            "how the hanging-wall side of each fault that cuts a vein moved",
            {{"fault", Q::text, "name as the project file spells it"},
             {"vein", Q::text, "name as the project file spells it"},
             {"east", Q::length, "of the hanging-wall side against the foot-wall side"},
             {"north", Q::length, "the same"},
             {"elevation", Q::length, "the same, up positive"},
             {"east_sd", Q::length_sd, "1 sigma"},
             {"north_sd", Q::length_sd, "1 sigma"},
             {"elevation_sd", Q::length_sd, "1 sigma"},
             {"given", Q::flag, "by the project file; else what the vein's data on both sides imply, offered and not used"},
             {"east_used", Q::length, "as drawn and forecast: a slip that is given with what both sides add to it; else 0"},
             {"north_used", Q::length, "the same"},
             {"elevation_used", Q::length, "the same"}}};
}

TableDescription checks() {
    return {"checks",
            "what is wrong or doubtful in the inputs, and what was left out",
            {{"severity", Q::text, "error, warning or note"},
             {"check", Q::text, "its name"},
             {"table", Q::text, "the table's name; project or style for these files"},
             {"row", Q::count, "line of the file, or row of the sheet"},
             {"hole", Q::text, "name as the collar table spells it"},
             {"message", Q::text, "this case, and what was done about it"}}};
}

}  // namespace

const std::vector<TableDescription>& table_descriptions() {
    static const std::vector<TableDescription> all = {
        paths(), orientations(), intercepts(), no_vein(), pierce_points(), not_seen_yet(), fit(),
        veins(), alpha_tests(),  sets(),       vein_of(), slips(),         step_outs(),    checks()};
    return all;
}

}  // namespace selvage::output
