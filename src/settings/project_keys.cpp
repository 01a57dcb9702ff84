#include "settings/project_keys.h"

#include "base/text.h"
#include "settings/read.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <utility>

namespace selvage::settings {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr Range any = {};
constexpr Range not_negative = {0.0, infinity};
constexpr Range share = {0.0, 1.0};
constexpr Range full_turn = {0.0, 360.0};
constexpr Range half_turn = {-180.0, 180.0};
constexpr Range plane_dip = {0.0, 90.0};
constexpr Range error_angle = {0.0, 90.0};
constexpr Range scale_denominators = {100.0, infinity};
constexpr Range at_least_one = {1.0, 1000.0};
constexpr const char* required = "required";
constexpr const char* told_by_slot = "";

const std::vector<std::string> north_words = {"grid", "true", "magnetic"};
const std::vector<std::string> unit_words = {"m", "ft", "us-ft"};
const std::vector<std::string> paper_words = {"A4", "A3", "A2", "A1", "A0", "279x432", "559x864"};

Choice north_choice(NorthReference& north) {
    return {north_words, static_cast<std::size_t>(north), [&north](std::size_t i) { north = static_cast<NorthReference>(i); }};
}

Choice optional_north_choice(std::optional<NorthReference>& north) {
    return {north_words, north ? static_cast<std::size_t>(*north) : north_words.size(),
            [&north](std::size_t i) { north = static_cast<NorthReference>(i); }};
}

Choice flag_choice(bool& flag, std::string off, std::string on) {
    return {{std::move(off), std::move(on)}, flag ? 1U : 0U, [&flag](std::size_t i) { flag = i == 1; }};
}

Choice word_choice(std::string& word, const std::vector<std::string>& words) {
    std::size_t now = 0;
    while (now < words.size() && words[now] != word) ++now;
    return {words, now, [&word, words](std::size_t i) { word = words[i]; }};
}

Section<Project> top_keys() {
    return {"",
            {{"order", Kind::texts, [](Project& p) -> Slot { return &p.order; }, any, "none",
              "veins and faults, oldest first; needed only where events cut each other"}}};
}

Section<Project> project_section() {
    return {
        "project",
        {{"name", Kind::text, [](Project& p) -> Slot { return &p.name; }, any, required,
          "name of the project, as sheets print it"},
         {"azimuth_reference", Kind::choice, [](Project& p) -> Slot { return north_choice(p.north.surveys); }, any, told_by_slot,
          "the north from which the azimuths of the surveys are counted"},
         {"declination", Kind::angle, [](Project& p) -> Slot { return &p.north.declination; }, half_turn,
          "none; needed for magnetic", "bearing of magnetic north from true north, east positive"},
         {"grid_convergence", Kind::angle, [](Project& p) -> Slot { return &p.north.grid_convergence; }, half_turn, told_by_slot,
          "bearing of grid north clockwise from true north"},
         {"crs", Kind::text, [](Project& p) -> Slot { return &p.crs; }, any, "none",
          "coordinate reference system, as EPSG:26911"},
         {"length_unit", Kind::choice,
          [](Project& p) -> Slot {
              return Choice{unit_words, static_cast<std::size_t>(p.length_unit),
                            [&p](std::size_t i) { p.length_unit = static_cast<base::LengthUnit>(i); }};
          },
          any, told_by_slot, "unit of lengths, depths and coordinates: metre, international foot or US survey foot"},
         {"date", Kind::date, [](Project& p) -> Slot { return &p.date; }, any, "the newest date in the tables, else none",
          "what the pack is dated"},
         {"beta_reference", Kind::choice,
          [](Project& p) -> Slot { return flag_choice(p.core_angles.beta_from_top, "bottom", "top"); }, any, told_by_slot,
          "the line on the core from which beta is counted"},
         {"beta_apex", Kind::choice,
          [](Project& p) -> Slot { return flag_choice(p.core_angles.beta_to_uphole_apex, "down-hole", "up-hole"); }, any,
          told_by_slot, "the end of the ellipse's long axis to which beta is counted"},
         {"owner", Kind::text, [](Project& p) -> Slot { return &p.title_block.owner; }, any, "an empty box", "title block"},
         {"number", Kind::text, [](Project& p) -> Slot { return &p.title_block.number; }, any, "an empty box", "title block"},
         {"created_by", Kind::text, [](Project& p) -> Slot { return &p.title_block.created_by; }, any, "an empty box",
          "title block"},
         {"approved_by", Kind::text, [](Project& p) -> Slot { return &p.title_block.approved_by; }, any, "an empty box",
          "title block"},
         {"status", Kind::text, [](Project& p) -> Slot { return &p.title_block.status; }, any, "an empty box", "title block"}}};
}

std::vector<KeyOf<SurveyErrorSizes>> survey_error_keys(const char* default_note) {
    return {{"azimuth_common", Kind::angle, [](SurveyErrorSizes& s) -> Slot { return &s.azimuth_common; }, error_angle,
             default_note, "1 sigma, once for the project and method"},
            {"azimuth_hole", Kind::angle, [](SurveyErrorSizes& s) -> Slot { return &s.azimuth_hole; }, error_angle, default_note,
             "1 sigma, once for a hole"},
            {"azimuth_station", Kind::angle, [](SurveyErrorSizes& s) -> Slot { return &s.azimuth_station; }, error_angle,
             default_note, "1 sigma, independent at each station"},
            {"dip_hole", Kind::angle, [](SurveyErrorSizes& s) -> Slot { return &s.dip_hole; }, error_angle, default_note,
             "1 sigma, once for a hole"},
            {"dip_station", Kind::angle, [](SurveyErrorSizes& s) -> Slot { return &s.dip_station; }, error_angle, default_note,
             "1 sigma, independent at each station"},
            {"depth_scale", Kind::number, [](SurveyErrorSizes& s) -> Slot { return &s.depth_scale; }, share, default_note,
             "1 sigma of the depth, a fraction, once for a hole"}};
}

Section<Project> collar_errors_section() {
    return {"survey_errors",
            {{"collar", Kind::length, [](Project& p) -> Slot { return &p.survey_errors.collar; }, not_negative, told_by_slot,
              "1 sigma of each coordinate where a collar has no collar_sd"},
             {"tool_tilt", Kind::angle, [](Project& p) -> Slot { return &p.survey_errors.tool_tilt; }, error_angle, told_by_slot,
              "1 sigma of one reading of the core's low side"}}};
}

std::vector<Section<Project>> rule_sections() {
    return {{"surveys",
             {{"prefer", Kind::texts, [](Project& p) -> Slot { return &p.survey_preference; }, any, "none",
               "survey methods, the best first, where a hole has several runs"}}},
            {"structures",
             {{"contact_kinds", Kind::texts, [](Project& p) -> Slot { return &p.core_angles.contact_kinds; }, any, told_by_slot,
               "kinds of structure that are walls of a vein, beside contact"},
              {"alpha_as_data", Kind::yes_no, [](Project& p) -> Slot { return &p.core_angles.alpha_as_data; }, any, told_by_slot,
               "alpha of unoriented contacts is taken as data of the vein's slope"}}},
            {"composites",
             {{"weight_by_density", Kind::yes_no, [](Project& p) -> Slot { return &p.composites.weight_by_density; }, any,
               told_by_slot, "grades are weighted by length times density"},
              {"unsampled_is_zero", Kind::yes_no, [](Project& p) -> Slot { return &p.composites.unsampled_is_zero; }, any,
               told_by_slot, "what nobody sampled counts as zero where less than 0.8 of a pick is assayed"}}},
            {"cut_off",
             {{"analyte", Kind::text, [](Project& p) -> Slot { return &p.cut_off.analyte; }, any,
               "the first analyte of the assays", "of which the grades and accumulations of sheets speak"},
              {"value", Kind::number, [](Project& p) -> Slot { return &p.cut_off.value; }, not_negative, "none",
               "grade, in the analyte's unit"},
              {"accumulation", Kind::grade_by_length, [](Project& p) -> Slot { return &p.cut_off.accumulation; }, not_negative,
               "none", "grade times true thickness at which classes of sheets break"},
              {"length_min", Kind::length, [](Project& p) -> Slot { return &p.cut_off.length_min; }, not_negative, told_by_slot,
               "shortest run over the cut-off", false},
              {"waste_max", Kind::length, [](Project& p) -> Slot { return &p.cut_off.waste_max; }, not_negative, told_by_slot,
               "longest unbroken stretch below the cut-off within a run", false},
              {"width_min", Kind::length, [](Project& p) -> Slot { return &p.cut_off.width_min; }, not_negative, told_by_slot,
               "width to which a run is diluted"},
              {"including", Kind::numbers, [](Project& p) -> Slot { return &p.cut_off.including; }, not_negative, "none",
               "higher cut-offs of the runs within a run", false}}}};
}

std::vector<Section<Project>> drilling_sections() {
    return {
        {"rig",
         {{"dip_min", Kind::angle, [](Project& p) -> Slot { return &p.rig.dip_min; }, plane_dip, told_by_slot, "flattest start"},
          {"dip_max", Kind::angle, [](Project& p) -> Slot { return &p.rig.dip_max; }, plane_dip, told_by_slot, "steepest start"},
          {"length_max", Kind::length, [](Project& p) -> Slot { return &p.rig.length_max; }, not_negative, told_by_slot,
           "longest hole"},
          {"cost_per_length", Kind::per_length, [](Project& p) -> Slot { return &p.rig.cost_per_length; }, not_negative,
           told_by_slot, "cost of drilling"},
          {"wedge_angle", Kind::angle, [](Project& p) -> Slot { return &p.rig.wedge_angle; }, error_angle, told_by_slot,
           "turn of one wedge", false},
          {"wedge_cost", Kind::number, [](Project& p) -> Slot { return &p.rig.wedge_cost; }, not_negative, told_by_slot,
           "cost of one wedge", false}}},
        {"plan",
         {{"spacing", Kind::length, [](Project& p) -> Slot { return &p.plan.spacing; }, not_negative,
           "the hole spacing found in the data", "wanted distance of pierces on the vein"},
          {"step_out", Kind::length, [](Project& p) -> Slot { return &p.plan.step_out; }, not_negative, "twice the hole spacing",
           "how far a vein is carried beyond its holes"},
          {"count", Kind::count, [](Project& p) -> Slot { return &p.plan.count; }, at_least_one, told_by_slot,
           "step-out holes proposed"},
          {"angle_min", Kind::angle, [](Project& p) -> Slot { return &p.plan.angle_min; }, plane_dip, told_by_slot,
           "least angle between a hole and a vein"},
          {"clearance", Kind::length, [](Project& p) -> Slot { return &p.plan.clearance; }, not_negative, told_by_slot,
           "least distance of a step-out hole from other holes, below the upper half of a fan, and of every hole from workings"},
          {"weights", Kind::weights, [](Project& p) -> Slot { return &p.plan.weights; }, not_negative, "[1, 0.5, 0]",
           "weights of information, value and cost in the choice of step-outs"},
          {"tail", Kind::length, [](Project& p) -> Slot { return &p.plan.tail; }, not_negative, told_by_slot,
           "foot wall drilled after the vein"}}}};
}

template <MapSource SiteSettings::*which>
std::vector<KeyOf<Project>> source_keys(const char* meaning) {
    return {{"source", Kind::text, [](Project& p) -> Slot { return &(p.site.*which).source; }, any, "none", meaning},
            {"layer", Kind::text, [](Project& p) -> Slot { return &(p.site.*which).layer; }, any, "all of them",
             "layer of the source, or of its drawing; band of a raster"},
            {"crs", Kind::text, [](Project& p) -> Slot { return &(p.site.*which).crs; }, any, "what the file says",
             "the source's coordinate reference system; where it differs from the project's, east and north are carried over"},
            {"length_unit", Kind::choice,
             [](Project& p) -> Slot {
                 std::optional<base::LengthUnit>& unit = (p.site.*which).length_unit;
                 return Choice{unit_words, unit ? static_cast<std::size_t>(*unit) : unit_words.size(),
                               [&unit](std::size_t i) { unit = static_cast<base::LengthUnit>(i); }};
             },
             any, "the project's", "unit of the source's coordinates and elevations"}};
}

std::vector<KeyOf<Project>> topography_keys() {
    std::vector<KeyOf<Project>> keys = source_keys<&SiteSettings::topography>(
        "the ground: a raster of elevations, points and breaklines (GeoPackage, shapefile, GeoJSON, DXF), or CSV points");
    keys.push_back({"elevation_field", Kind::text, [](Project& p) -> Slot { return &p.site.elevation_field; }, any, told_by_slot,
                    "field that holds the elevation of points and lines without their own"});
    keys.push_back({"contour_interval", Kind::length, [](Project& p) -> Slot { return &p.site.contour_interval; }, not_negative,
                    "a round figure that suits the scale", "between contour lines of the ground on plans"});
    return keys;
}

std::vector<KeyOf<Project>> workings_keys() {
    std::vector<KeyOf<Project>> keys = source_keys<&SiteSettings::workings>(
        "old workings: solids (PLY, OFF, OBJ, DXF faces), or areas with their elevations or the fields bottom and top");
    keys.push_back({"height", Kind::length, [](Project& p) -> Slot { return &p.site.workings_height; }, not_negative,
                    told_by_slot, "height of workings that are given by one level, above it"});
    return keys;
}

std::vector<Section<Project>> sheet_sections() {
    return {
        {"topography", topography_keys()},
        {"property", source_keys<&SiteSettings::property>("areas of the property: GeoPackage, shapefile, GeoJSON, DXF, or CSV")},
        {"workings", workings_keys()},
        {"sections",
         {{"azimuth", Kind::azimuth, [](Project& p) -> Slot { return &p.sections.azimuth; }, full_turn,
           "across the first vein's strike", "bearing of the section lines"},
          {"spacing", Kind::length, [](Project& p) -> Slot { return &p.sections.spacing; }, not_negative, "the hole spacing",
           "distance between sections"},
          {"origin", Kind::map_point, [](Project& p) -> Slot { return &p.sections.origin; }, any, "the middle of the collars",
           "where the first section crosses the base line"},
          {"looking", Kind::azimuth, [](Project& p) -> Slot { return &p.sections.looking; }, full_turn,
           "the more easterly end on the right", "the way in which one looks at every section"}}},
        {"sheets",
         {{"paper", Kind::choice, [](Project& p) -> Slot { return word_choice(p.sheets.paper, paper_words); }, any, told_by_slot,
           "size of the sheets of the pack, landscape"},
          {"largest_paper", Kind::choice, [](Project& p) -> Slot { return word_choice(p.sheets.largest_paper, paper_words); },
           any, told_by_slot,
           "size that a drawing may grow to where its labels have no room beside their points on the pack's paper; one that is "
           "crowded even there goes over several sheets at a larger scale"},
          {"style", Kind::text, [](Project& p) -> Slot { return &p.sheets.style; }, any, told_by_slot,
           "name of a style, or a style file"},
          {"smallest_scale", Kind::number, [](Project& p) -> Slot { return &p.sheets.smallest_scale; }, scale_denominators,
           "10000, in feet 12000",
           "denominator of the smallest scale at which a long section, cross section, plan or level is drawn on one sheet; one "
           "that would need a smaller one is split over sheets with match lines, at the allowed scale next to it"},
          {"nothing_new", Kind::yes_no, [](Project& p) -> Slot { return &p.sheets.nothing_new; }, any, told_by_slot,
           "whether cross sections, level plans and logs that hold nothing new are drawn; new is what was drilled, met, missed "
           "or assayed since the last pack, without one in the seven days up to the project's date; where dates are lacking, "
           "all are drawn"}}},
        {"disclosure",
         {{"code", Kind::text, [](Project& p) -> Slot { return &p.disclosure.code; }, any, "none", "reporting code of the drafts",
           false},
          {"edition", Kind::text, [](Project& p) -> Slot { return &p.disclosure.edition; }, any, "none", "its edition", false}},
         false}};
}

std::string default_of(const Slot& slot) {
    const auto number = [](double value) { return base::significant(value, 6); };
    if (const auto* choice = std::get_if<Choice>(&slot))
        return choice->now < choice->words.size() ? choice->words[choice->now] : "";
    if (const auto* text = std::get_if<std::string*>(&slot)) return **text;
    if (const auto* texts = std::get_if<std::vector<std::string>*>(&slot)) return fmt::format("{}", fmt::join(**texts, ", "));
    if (const auto* flag = std::get_if<bool*>(&slot)) return **flag ? "true" : "false";
    if (const auto* value = std::get_if<double*>(&slot)) return number(**value);
    if (const auto* count = std::get_if<std::size_t*>(&slot)) return fmt::format("{}", **count);
    if (const auto* angle = std::get_if<base::Angle*>(&slot)) return number((*angle)->degrees());
    return "none";
}

std::string kind_with_words(Kind kind, const Slot& slot) {
    const auto* choice = std::get_if<Choice>(&slot);
    return choice ? fmt::format("one of {}", fmt::join(choice->words, ", ")) : word_of(kind);
}

template <typename T>
void add_keys(std::vector<Key>& all, const Section<T>& section) {
    T defaults;
    for (const KeyOf<T>& key : section.keys) {
        const Slot slot = key.slot(defaults);
        const std::string note = key.default_note;
        const char* tail = section.has_effect && key.has_effect ? "" : " (read, without effect yet)";
        all.push_back({section.name, key.name, kind_with_words(key.kind, slot), note.empty() ? default_of(slot) : note,
                       std::string(key.meaning) + tail});
    }
}

std::vector<Key> all_keys() {
    std::vector<Key> all;
    const std::vector<Section<Project>>& plain = plain_sections();
    add_keys(all, plain[0]);
    add_keys(all, plain[1]);
    for (const std::string& table : table_names())
        all.push_back({"tables", table, "text, or a table of the keys below",
                       table == "collars" || table == "surveys" ? required : "none", "source of the table"});
    add_keys(all, table_section());
    add_keys(all, vein_section());
    add_keys(all, fault_section());
    for (std::size_t i = 2; i < plain.size(); ++i) {
        const bool errors = std::string(plain[i].name) == collar_errors_section().name;
        if (errors) add_keys(all, usual_errors_section());
        add_keys(all, plain[i]);
        if (errors) add_keys(all, survey_method_section());
    }
    add_keys(all, analyte_section());
    add_keys(all, equivalent_section());
    return all;
}

}  // namespace

const char* word_of(Kind kind) {
    static constexpr std::array<const char*, 18> words = {"text",
                                                          "one of a list of words",
                                                          "date",
                                                          "true or false",
                                                          "number",
                                                          "whole number",
                                                          "length",
                                                          "cost for each unit of length",
                                                          "grade x length",
                                                          "angle in degrees",
                                                          "azimuth in degrees",
                                                          "point [east, north, elevation]",
                                                          "list of points [east, north, elevation]",
                                                          "point [east, north]",
                                                          "list of texts",
                                                          "list of numbers",
                                                          "three numbers",
                                                          "table of numbers"};
    return words.at(static_cast<std::size_t>(kind));
}

const std::vector<std::string>& table_names() {
    static const std::vector<std::string> names = {"collars",  "surveys",  "picks",    "geology", "assays",   "structures",
                                                   "recovery", "minerals", "drilling", "sizes",   "outcrops", "pads"};
    return names;
}

const std::vector<Section<Project>>& plain_sections() {
    static const std::vector<Section<Project>> all = [] {
        std::vector<Section<Project>> sections = {top_keys(), project_section(), collar_errors_section()};
        for (const auto& group : {rule_sections(), drilling_sections(), sheet_sections()})
            sections.insert(sections.end(), group.begin(), group.end());
        return sections;
    }();
    return all;
}

const Section<TableEntry>& table_section() {
    static const Section<TableEntry> section = {
        "tables.<table>",
        {{"source", Kind::text, [](TableEntry& t) -> Slot { return &t.source; }, any, required,
          "file, relative to the project file"},
         {"layer", Kind::text, [](TableEntry& t) -> Slot { return &t.layer; }, any, "the only one",
          "sheet or layer of the source", false},
         {"azimuth_reference", Kind::choice, [](TableEntry& t) -> Slot { return optional_north_choice(t.azimuth_reference); },
          any, "grid; of surveys the project's", "the north of this table's azimuths and dip directions"},
         {"length_unit", Kind::choice,
          [](TableEntry& t) -> Slot {
              return Choice{unit_words, t.length_unit ? static_cast<std::size_t>(*t.length_unit) : unit_words.size(),
                            [&t](std::size_t i) { t.length_unit = static_cast<base::LengthUnit>(i); }};
          },
          any, "the project's", "unit of this table's lengths, depths and coordinates"},
         {"dip_sign", Kind::choice,
          [](TableEntry& t) -> Slot { return flag_choice(t.dip_negative_down, "positive_down", "negative_down"); }, any,
          told_by_slot, "sign of this table's dips that point downwards"},
         {"encoding", Kind::choice,
          [](TableEntry& t) -> Slot {
              return word_choice(t.encoding, {"utf-8", "windows-1252"});
          },
          any, "utf-8, else windows-1252 where it is not valid", "how the file writes letters"},
         {"decimal", Kind::choice,
          [](TableEntry& t) -> Slot {
              return Choice{{".", ","}, t.decimal == ',' ? 1U : 0U, [&t](std::size_t i) { t.decimal = i == 1 ? ',' : '.'; }};
          },
          any, told_by_slot, "decimal sign of this table's numbers"}}};
    return section;
}

const Section<VeinSetting>& vein_section() {
    static const Section<VeinSetting> section = {
        "[vein]",
        {{"name", Kind::text, [](VeinSetting& v) -> Slot { return &v.name; }, any, required, "name, as the tables write it"},
         {"point", Kind::point, [](VeinSetting& v) -> Slot { return &v.point; }, any, "none",
          "a point of the vein, with dip and dip_direction: where the data cannot tell"},
         {"dip", Kind::angle, [](VeinSetting& v) -> Slot { return &v.dip; }, plane_dip, "none", "dip at the point"},
         {"dip_direction", Kind::azimuth, [](VeinSetting& v) -> Slot { return &v.dip_direction; }, full_turn, "none",
          "grid azimuth of the dip at the point"},
         {"point_sd", Kind::length, [](VeinSetting& v) -> Slot { return &v.point_sd; }, not_negative, "the model's",
          "1 sigma of the point across the vein"},
         {"attitude_sd", Kind::angle, [](VeinSetting& v) -> Slot { return &v.attitude_sd; }, error_angle, "the model's",
          "1 sigma of the attitude at the point"},
         {"splay_of", Kind::text, [](VeinSetting& v) -> Slot { return &v.splay_of; }, any, "none",
          "name of the vein that it leaves, at whose wall it ends"}}};
    return section;
}

const Section<FaultSetting>& fault_section() {
    static const Section<FaultSetting> section = {
        "[fault]",
        {{"name", Kind::text, [](FaultSetting& f) -> Slot { return &f.name; }, any, required, "name, as `order` writes it"},
         {"point", Kind::point, [](FaultSetting& f) -> Slot { return &f.point; }, any, "none", "a point of the fault"},
         {"trace", Kind::points, [](FaultSetting& f) -> Slot { return &f.trace; }, any, "none",
          "further points of it, as along its line on the ground"},
         {"dip", Kind::angle, [](FaultSetting& f) -> Slot { return &f.dip; }, plane_dip, "none",
          "dip; with picks or outcrops that bear its name, these weigh in"},
         {"dip_direction", Kind::azimuth, [](FaultSetting& f) -> Slot { return &f.dip_direction; }, full_turn, "none",
          "grid azimuth of the dip"},
         {"point_sd", Kind::length, [](FaultSetting& f) -> Slot { return &f.point_sd; }, not_negative, "5 m",
          "1 sigma of each point, each axis"},
         {"attitude_sd", Kind::angle, [](FaultSetting& f) -> Slot { return &f.attitude_sd; }, error_angle, "5",
          "1 sigma of the attitude"},
         {"slip", Kind::point, [](FaultSetting& f) -> Slot { return &f.slip; }, any, "none",
          "how the hanging-wall side moved against the foot-wall side: east, north, up"},
         {"strike_slip", Kind::length, [](FaultSetting& f) -> Slot { return &f.strike_slip; }, any, "none",
          "right-lateral positive"},
         {"dip_slip", Kind::length, [](FaultSetting& f) -> Slot { return &f.dip_slip; }, any, "none", "normal positive"},
         {"slip_sd", Kind::length, [](FaultSetting& f) -> Slot { return &f.slip_sd; }, not_negative,
          "a tenth of the slip, 0.5 m at least", "1 sigma of the slip, each axis"}}};
    return section;
}

const Section<AnalyteSetting>& analyte_section() {
    static const Section<AnalyteSetting> section = {
        "analyte.<name>",
        {{"label", Kind::text, [](AnalyteSetting& a) -> Slot { return &a.label; }, any, "made from the name",
          "as sheets print it", false},
         {"from", Kind::texts, [](AnalyteSetting& a) -> Slot { return &a.from; }, any, "the column of that name",
          "columns of this element, the best first"},
         {"top_cut", Kind::number, [](AnalyteSetting& a) -> Slot { return &a.top_cut; }, not_negative, "none",
          "grade to which higher ones are cut", false},
         {"below_detection", Kind::number, [](AnalyteSetting& a) -> Slot { return &a.below_detection; }, share, told_by_slot,
          "share of the limit that stands for a value below it"}}};
    return section;
}

const Section<SurveyErrorSizes>& usual_errors_section() {
    static const Section<SurveyErrorSizes> section = {"survey_errors", survey_error_keys(told_by_slot)};
    return section;
}

const Section<SurveyErrorSizes>& survey_method_section() {
    static const Section<SurveyErrorSizes> section = {"survey_errors.<method>", survey_error_keys("that of survey_errors")};
    return section;
}

const Section<EquivalentSetting>& equivalent_section() {
    const auto none = [](EquivalentSetting&) -> Slot { return {}; };
    static const Section<EquivalentSetting> section = {
        "[equivalent]",
        {{"name", Kind::text, [](EquivalentSetting& e) -> Slot { return &e.name; }, any, required, "name of its column"},
         {"analyte", Kind::text, none, any, "none", "the analyte in which it is expressed"},
         {"prices", Kind::named_numbers, none, not_negative, "none", "price of each analyte for a unit of its grade"},
         {"recoveries", Kind::named_numbers, none, share, "none", "metallurgical recovery of each analyte"}},
        false};
    return section;
}

const std::vector<Key>& project_keys() {
    static const std::vector<Key> keys = all_keys();
    return keys;
}

}  // namespace selvage::settings
