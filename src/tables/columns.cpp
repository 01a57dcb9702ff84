#include "tables/columns.h"

#include "tables/rows.h"

#include <fmt/format.h>

#include <array>
#include <utility>

namespace selvage::tables {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr Limits any = {};
constexpr Limits not_negative = {0.0, infinity};
constexpr Limits full_turn = {0.0, 360.0};
constexpr Limits half_turn = {-180.0, 180.0};
constexpr Limits hole_dip = {-90.0, 90.0};
constexpr Limits plane_dip = {0.0, 90.0};
// Core swells and depths are read to a decimetre: a run may hold a little more core than its length. Common practice, no source.
constexpr Limits core_recovery = {0.0, 1.10};
constexpr Limits certainty_limits = {1.0, 3.0};
constexpr Limits quality_limits = {1.0, 4.0};
constexpr Limits strength_limits = {0.0, 4.0};
// From dry pumice to native gold, t/m3; what lies outside is another unit.
constexpr Limits density_limits = {0.5, 20.0};

const std::vector<std::string> north_words = {"grid", "true", "magnetic"};
const std::vector<std::string> hole_status_words = {"done", "active", "planned", "suspended", "abandoned", "cancelled"};
const std::vector<std::string> hole_type_words = {"core", "percussion", "channel", "trench", "face"};
const std::vector<std::string> pick_state_words = {"vein", "structure", "void", "lost", "faulted", "absent"};
const std::vector<std::string> sample_type_words = {
    "primary", "field duplicate", "coarse duplicate", "pulp duplicate", "standard", "blank", "check"};
const std::vector<std::string> sample_status_words = {"final", "pending", "sent", "not sent", "failed"};

std::string word_of(CellKind kind) {
    static constexpr std::array<const char*, 12> words = {"text",
                                                          "text",
                                                          "one of some words",
                                                          "date",
                                                          "number",
                                                          "whole number",
                                                          "length",
                                                          "percent",
                                                          "dip in degrees",
                                                          "angle in degrees",
                                                          "azimuth in degrees",
                                                          "0 or 1"};
    return words.at(static_cast<std::size_t>(kind));
}

template <typename Row>
TableDescription described(const char* name, bool required, const char* meaning, bool has_effect = true, bool analytes = false) {
    TableDescription table{name, required, has_effect, analytes, meaning, {}};
    for (const ColumnOf<Row>& column : columns_of(static_cast<const Row*>(nullptr))) {
        const ColumnTraits& traits = column.traits;
        const std::string kind =
            traits.words == nullptr ? word_of(traits.kind) : fmt::format("one of {}", fmt::join(*traits.words, ", "));
        const bool needed = traits.need == Need::required || traits.need == Need::required_column;
        table.columns.push_back({traits.name, kind, needed, has_effect && traits.has_effect, traits.meaning});
    }
    return table;
}

}  // namespace

const std::vector<ColumnOf<CollarRow>>& columns_of(const CollarRow*) {
    using R = CollarRow;
    static const std::vector<ColumnOf<R>> columns = {
        {{"hole", CellKind::text, Need::required, "name of the hole"}, [](R& r) -> CellSlot { return &r.collar.hole; }},
        {{"east", CellKind::length, Need::required, "of the collar"}, [](R& r) -> CellSlot { return &r.east; }},
        {{"north", CellKind::length, Need::required, "of the collar"}, [](R& r) -> CellSlot { return &r.north; }},
        {{"elevation", CellKind::length, Need::required, "of the collar"}, [](R& r) -> CellSlot { return &r.elevation; }},
        {{"depth", CellKind::length, Need::required, "final depth, planned if the hole is active or planned", not_negative},
         [](R& r) -> CellSlot { return &r.collar.depth; }},
        {{"azimuth", CellKind::azimuth, Need::optional, "planned start", full_turn}, [](R& r) -> CellSlot { return &r.azimuth; }},
        {{"dip", CellKind::dip, Need::optional, "planned start", hole_dip}, [](R& r) -> CellSlot { return &r.dip; }},
        {{"status", CellKind::choice, Need::optional, "default done; abandoned: short of its target", any, &hole_status_words},
         [](R& r) -> CellSlot { return &r.status; }},
        {{"hole_type", CellKind::choice, Need::optional, "default core; only core and percussion are drill holes", any,
          &hole_type_words},
         [](R& r) -> CellSlot { return &r.type; }},
        {{"core_size", CellKind::text, Need::optional, "as NQ"}, [](R& r) -> CellSlot { return &r.collar.core_size; }},
        {{"campaign", CellKind::text, Need::optional, "tells two holes of one name apart"},
         [](R& r) -> CellSlot { return &r.collar.campaign; }},
        {{"date", CellKind::date, Need::optional, "of the row"}, [](R& r) -> CellSlot { return &r.collar.date; }},
        {{"date_started", CellKind::date, Need::optional, "of drilling"},
         [](R& r) -> CellSlot { return &r.collar.date_started; }},
        {{"date_finished", CellKind::date, Need::optional, "of drilling"},
         [](R& r) -> CellSlot { return &r.collar.date_finished; }},
        {{"parent", CellKind::text, Need::optional, "the hole from which a daughter branches"},
         [](R& r) -> CellSlot { return &r.parent; }},
        {{"kickoff", CellKind::length, Need::optional, "depth at which a daughter leaves its parent", not_negative},
         [](R& r) -> CellSlot { return &r.collar.kickoff; }},
        {{"collar_sd", CellKind::length, Need::optional, "1 sigma of east and north", not_negative},
         [](R& r) -> CellSlot { return &r.collar.collar_sd; }},
        {{"elevation_sd", CellKind::length, Need::optional, "1 sigma; default collar_sd", not_negative},
         [](R& r) -> CellSlot { return &r.collar.elevation_sd; }},
        {{"collar_method", CellKind::text, Need::optional, "how the collar was surveyed"},
         [](R& r) -> CellSlot { return &r.collar.collar_method; }},
        {{"drilled", CellKind::length, Need::optional, "how far an active hole has come; default its deepest row", not_negative},
         [](R& r) -> CellSlot { return &r.collar.drilled; }},
        {{"planned_as", CellKind::text, Need::optional, "name that the hole had as a plan", any, nullptr, false},
         [](R& r) -> CellSlot { return &r.collar.planned_as; }},
        {{"target", CellKind::text, Need::optional, "name of the target"}, [](R& r) -> CellSlot { return &r.target; }},
        {{"target_vein", CellKind::text, Need::optional, "the vein to be pierced there"},
         [](R& r) -> CellSlot { return &r.target_vein; }},
        {{"target_east", CellKind::length, Need::optional, "of the target"}, [](R& r) -> CellSlot { return &r.target_east; }},
        {{"target_north", CellKind::length, Need::optional, "of the target"}, [](R& r) -> CellSlot { return &r.target_north; }},
        {{"target_elevation", CellKind::length, Need::optional, "of the target"},
         [](R& r) -> CellSlot { return &r.target_elevation; }},
        {{"target_radius", CellKind::length, Need::optional, "on the vein", not_negative},
         [](R& r) -> CellSlot { return &r.target_radius; }}};
    return columns;
}

const std::vector<ColumnOf<SurveyRow>>& columns_of(const SurveyRow*) {
    using R = SurveyRow;
    static const std::vector<ColumnOf<R>> columns = {
        {{"hole", CellKind::text, Need::required, "name of the hole"}, [](R& r) -> CellSlot { return &r.survey.hole; }},
        {{"depth", CellKind::length, Need::required, "of the station", not_negative},
         [](R& r) -> CellSlot { return &r.survey.depth; }},
        {{"dip", CellKind::dip, Need::required, "of the hole", hole_dip}, [](R& r) -> CellSlot { return &r.dip; }},
        {{"azimuth", CellKind::azimuth, Need::optional, "of the hole; empty: a dip-only test", full_turn},
         [](R& r) -> CellSlot { return &r.azimuth; }},
        {{"method", CellKind::word, Need::optional, "of the survey"}, [](R& r) -> CellSlot { return &r.survey.method; }},
        {{"run", CellKind::text, Need::optional, "name of the run"}, [](R& r) -> CellSlot { return &r.survey.run; }},
        {{"azimuth_reference", CellKind::choice, Need::optional, "of this row; wins over the project's", any, &north_words},
         [](R& r) -> CellSlot { return &r.reference; }},
        {{"declination", CellKind::angle, Need::optional, "of this row; wins over the project's", half_turn},
         [](R& r) -> CellSlot { return &r.declination; }},
        {{"magnetic_field", CellKind::number, Need::optional, "strength, in any unit that all rows share", not_negative},
         [](R& r) -> CellSlot { return &r.survey.magnetic_field; }},
        {{"date", CellKind::date, Need::optional, "of the survey"}, [](R& r) -> CellSlot { return &r.survey.date; }},
        {{"use", CellKind::yes_no, Need::optional, "0: not used"}, [](R& r) -> CellSlot { return &r.survey.use; }}};
    return columns;
}

const std::vector<ColumnOf<PickRow>>& columns_of(const PickRow*) {
    using R = PickRow;
    static const std::vector<ColumnOf<R>> columns = {
        {{"hole", CellKind::text, Need::required, "name of the hole"}, [](R& r) -> CellSlot { return &r.pick.hole; }},
        {{"from", CellKind::length, Need::required, "depth", not_negative}, [](R& r) -> CellSlot { return &r.pick.from; }},
        {{"to", CellKind::length, Need::required, "depth", not_negative}, [](R& r) -> CellSlot { return &r.pick.to; }},
        {{"vein", CellKind::text, Need::required, "as the project file names it"}, [](R& r) -> CellSlot { return &r.pick.vein; }},
        {{"state", CellKind::choice, Need::matters, "default vein", any, &pick_state_words},
         [](R& r) -> CellSlot { return &r.state; }},
        {{"certainty", CellKind::whole, Need::matters, "1 sure (default), 2 likely, 3 possible", certainty_limits},
         [](R& r) -> CellSlot { return &r.pick.certainty; }},
        {{"zone", CellKind::text, Need::optional, "picks of one zone are one intercept"},
         [](R& r) -> CellSlot { return &r.pick.zone; }},
        {{"from_sd", CellKind::length, Need::optional, "1 sigma of the contact's depth", not_negative},
         [](R& r) -> CellSlot { return &r.pick.from_sd; }},
        {{"to_sd", CellKind::length, Need::optional, "1 sigma of the contact's depth", not_negative},
         [](R& r) -> CellSlot { return &r.pick.to_sd; }},
        {{"by", CellKind::text, Need::optional, "who picked"}, [](R& r) -> CellSlot { return &r.pick.by; }},
        {{"date", CellKind::date, Need::optional, "of the pick"}, [](R& r) -> CellSlot { return &r.pick.date; }},
        {{"comment", CellKind::text, Need::optional, "free text"}, [](R& r) -> CellSlot { return &r.pick.comment; }}};
    return columns;
}

const std::vector<ColumnOf<GeologyRow>>& columns_of(const GeologyRow*) {
    using R = GeologyRow;
    static const std::vector<ColumnOf<R>> columns = {
        {{"hole", CellKind::text, Need::required, "name of the hole"}, [](R& r) -> CellSlot { return &r.geology.hole; }},
        {{"from", CellKind::length, Need::required, "depth", not_negative}, [](R& r) -> CellSlot { return &r.geology.from; }},
        {{"to", CellKind::length, Need::required, "depth", not_negative}, [](R& r) -> CellSlot { return &r.geology.to; }},
        {{"rock", CellKind::text, Need::optional, "as logged"}, [](R& r) -> CellSlot { return &r.geology.rock; }},
        {{"vein", CellKind::text, Need::optional, "a pick, where the picks table has none for the hole"},
         [](R& r) -> CellSlot { return &r.geology.vein; }},
        {{"certainty", CellKind::whole, Need::matters, "of the vein: 1 sure (default), 2 likely, 3 possible", certainty_limits},
         [](R& r) -> CellSlot { return &r.geology.certainty; }},
        {{"version", CellKind::text, Need::optional, "of the log", any, nullptr, false},
         [](R& r) -> CellSlot { return &r.version; }}};
    return columns;
}

const std::vector<ColumnOf<AssayRow>>& columns_of(const AssayRow*) {
    using R = AssayRow;
    static const std::vector<ColumnOf<R>> columns = {
        {{"hole", CellKind::text, Need::required_column, "name of the hole"}, [](R& r) -> CellSlot { return &r.assay.hole; }},
        {{"from", CellKind::length, Need::required_column, "depth; may be empty in standards and blanks", not_negative},
         [](R& r) -> CellSlot { return &r.assay.from; }},
        {{"to", CellKind::length, Need::required_column, "depth; may be empty in standards and blanks", not_negative},
         [](R& r) -> CellSlot { return &r.assay.to; }},
        {{"sample", CellKind::text, Need::optional, "number of the sample"}, [](R& r) -> CellSlot { return &r.assay.sample; }},
        {{"sample_type", CellKind::choice, Need::matters, "default primary; only primary rows make grades", any,
          &sample_type_words},
         [](R& r) -> CellSlot { return &r.type; }},
        {{"status", CellKind::choice, Need::optional, "default final", any, &sample_status_words},
         [](R& r) -> CellSlot { return &r.status; }},
        {{"certificate", CellKind::text, Need::optional, "of the laboratory"},
         [](R& r) -> CellSlot { return &r.dispatch.certificate; }},
        {{"laboratory", CellKind::text, Need::optional, "its name"}, [](R& r) -> CellSlot { return &r.dispatch.laboratory; }},
        {{"method", CellKind::text, Need::optional, "of the analysis"}, [](R& r) -> CellSlot { return &r.dispatch.method; }},
        {{"dispatched", CellKind::date, Need::optional, "to the laboratory"},
         [](R& r) -> CellSlot { return &r.dispatch.dispatched; }},
        {{"received", CellKind::date, Need::optional, "from the laboratory"},
         [](R& r) -> CellSlot { return &r.dispatch.received; }},
        {{"density", CellKind::number, Need::optional, "t/m3", density_limits},
         [](R& r) -> CellSlot { return &r.assay.density; }}};
    return columns;
}

const std::vector<ColumnOf<StructureRow>>& columns_of(const StructureRow*) {
    using R = StructureRow;
    static const std::vector<ColumnOf<R>> columns = {
        {{"hole", CellKind::text, Need::required, "name of the hole"}, [](R& r) -> CellSlot { return &r.structure.hole; }},
        {{"depth", CellKind::length, Need::required, "where it crosses the core's axis", not_negative},
         [](R& r) -> CellSlot { return &r.structure.depth; }},
        {{"kind", CellKind::word, Need::optional, "contact: a wall of a vein; others are free text"},
         [](R& r) -> CellSlot { return &r.structure.kind; }},
        {{"alpha", CellKind::angle, Need::matters, "acute angle between core axis and plane", plane_dip},
         [](R& r) -> CellSlot { return &r.alpha; }},
        {{"beta", CellKind::angle, Need::matters, "clockwise looking down the hole, from the reference line", full_turn},
         [](R& r) -> CellSlot { return &r.beta; }},
        {{"gamma", CellKind::angle, Need::optional, "of a lineation in the plane", full_turn},
         [](R& r) -> CellSlot { return &r.gamma; }},
        {{"dip", CellKind::dip, Need::matters, "of the plane", plane_dip}, [](R& r) -> CellSlot { return &r.dip; }},
        {{"dip_direction", CellKind::azimuth, Need::matters, "of the plane", full_turn},
         [](R& r) -> CellSlot { return &r.dip_direction; }},
        {{"quality", CellKind::whole, Need::matters, "1 best to 4 (printed, not used); default 2", quality_limits},
         [](R& r) -> CellSlot { return &r.structure.quality; }},
        {{"vein", CellKind::text, Need::optional, "whose contact it is"}, [](R& r) -> CellSlot { return &r.structure.vein; }},
        {{"line", CellKind::text, Need::optional, "core run whose reference line was used"},
         [](R& r) -> CellSlot { return &r.structure.line; }}};
    return columns;
}

const std::vector<ColumnOf<RecoveryRow>>& columns_of(const RecoveryRow*) {
    using R = RecoveryRow;
    static const std::vector<ColumnOf<R>> columns = {
        {{"hole", CellKind::text, Need::required, "name of the hole"}, [](R& r) -> CellSlot { return &r.recovery.hole; }},
        {{"from", CellKind::length, Need::required, "depth", not_negative}, [](R& r) -> CellSlot { return &r.recovery.from; }},
        {{"to", CellKind::length, Need::required, "depth", not_negative}, [](R& r) -> CellSlot { return &r.recovery.to; }},
        {{"recovery", CellKind::percent, Need::optional, "core recovered of the run", core_recovery},
         [](R& r) -> CellSlot { return &r.recovery.recovery; }},
        {{"recovered", CellKind::length, Need::optional, "length of core, where recovery is empty", not_negative},
         [](R& r) -> CellSlot { return &r.recovered; }},
        {{"rqd", CellKind::percent, Need::optional, "rock quality designation", core_recovery},
         [](R& r) -> CellSlot { return &r.recovery.rqd; }}};
    return columns;
}

const std::vector<ColumnOf<MineralRow>>& columns_of(const MineralRow*) {
    using R = MineralRow;
    static const std::vector<ColumnOf<R>> columns = {
        {{"hole", CellKind::text, Need::required, "name of the hole"}, [](R& r) -> CellSlot { return &r.mineral.hole; }},
        {{"from", CellKind::length, Need::required, "depth", not_negative}, [](R& r) -> CellSlot { return &r.mineral.from; }},
        {{"to", CellKind::length, Need::required, "depth", not_negative}, [](R& r) -> CellSlot { return &r.mineral.to; }},
        {{"mineral", CellKind::word, Need::required, "its name"}, [](R& r) -> CellSlot { return &r.mineral.mineral; }},
        {{"strength", CellKind::number, Need::optional, "0 to 4", strength_limits},
         [](R& r) -> CellSlot { return &r.mineral.strength; }}};
    return columns;
}

const std::vector<ColumnOf<DrillingRow>>& columns_of(const DrillingRow*) {
    using R = DrillingRow;
    static const std::vector<ColumnOf<R>> columns = {
        {{"hole", CellKind::text, Need::required, "name of the hole"}, [](R& r) -> CellSlot { return &r.event.hole; }},
        {{"depth", CellKind::length, Need::required, "where it was met", not_negative},
         [](R& r) -> CellSlot { return &r.event.depth; }},
        {{"to", CellKind::length, Need::optional, "its end", not_negative}, [](R& r) -> CellSlot { return &r.event.to; }},
        {{"kind", CellKind::word, Need::optional, "water loss, void, cave, stuck, bit change or free text"},
         [](R& r) -> CellSlot { return &r.event.kind; }},
        {{"note", CellKind::text, Need::optional, "free text"}, [](R& r) -> CellSlot { return &r.event.note; }}};
    return columns;
}

const std::vector<ColumnOf<SizeRow>>& columns_of(const SizeRow*) {
    using R = SizeRow;
    static const std::vector<ColumnOf<R>> columns = {
        {{"hole", CellKind::text, Need::required, "name of the hole"}, [](R& r) -> CellSlot { return &r.size.hole; }},
        {{"from", CellKind::length, Need::required, "depth", not_negative}, [](R& r) -> CellSlot { return &r.size.from; }},
        {{"to", CellKind::length, Need::required, "depth", not_negative}, [](R& r) -> CellSlot { return &r.size.to; }},
        {{"size", CellKind::text, Need::required, "as NQ", any, nullptr, false}, [](R& r) -> CellSlot { return &r.size.size; }},
        {{"casing", CellKind::yes_no, Need::optional, "1: cased there"}, [](R& r) -> CellSlot { return &r.size.casing; }},
        {{"steered", CellKind::yes_no, Need::optional, "1: steered there"}, [](R& r) -> CellSlot { return &r.size.steered; }}};
    return columns;
}

const std::vector<ColumnOf<OutcropRow>>& columns_of(const OutcropRow*) {
    using R = OutcropRow;
    static const std::vector<ColumnOf<R>> columns = {
        {{"east", CellKind::length, Need::required, "of the point"}, [](R& r) -> CellSlot { return &r.east; }},
        {{"north", CellKind::length, Need::required, "of the point"}, [](R& r) -> CellSlot { return &r.north; }},
        {{"elevation", CellKind::length, Need::required, "of the point"}, [](R& r) -> CellSlot { return &r.elevation; }},
        {{"vein", CellKind::text, Need::optional, "as the project file names it"},
         [](R& r) -> CellSlot { return &r.outcrop.vein; }},
        {{"dip", CellKind::dip, Need::optional, "of the vein", plane_dip}, [](R& r) -> CellSlot { return &r.dip; }},
        {{"dip_direction", CellKind::azimuth, Need::optional, "of the vein", full_turn},
         [](R& r) -> CellSlot { return &r.dip_direction; }},
        {{"thickness", CellKind::length, Need::optional, "true thickness", not_negative},
         [](R& r) -> CellSlot { return &r.outcrop.thickness; }},
        {{"trench", CellKind::yes_no, Need::optional, "1: laid bare by a trench"},
         [](R& r) -> CellSlot { return &r.outcrop.trench; }}};
    return columns;
}

const std::vector<ColumnOf<PadRow>>& columns_of(const PadRow*) {
    using R = PadRow;
    static const std::vector<ColumnOf<R>> columns = {
        {{"pad", CellKind::text, Need::required, "its name"}, [](R& r) -> CellSlot { return &r.pad.pad; }},
        {{"east", CellKind::length, Need::required, "of its middle"}, [](R& r) -> CellSlot { return &r.east; }},
        {{"north", CellKind::length, Need::required, "of its middle"}, [](R& r) -> CellSlot { return &r.north; }},
        {{"elevation", CellKind::length, Need::required, "of its middle"}, [](R& r) -> CellSlot { return &r.elevation; }},
        {{"dip_min", CellKind::dip, Need::optional, "flattest hole", hole_dip}, [](R& r) -> CellSlot { return &r.dip_min; }},
        {{"dip_max", CellKind::dip, Need::optional, "steepest hole", hole_dip}, [](R& r) -> CellSlot { return &r.dip_max; }},
        {{"azimuth_min", CellKind::azimuth, Need::optional, "of its holes, clockwise to azimuth_max", full_turn},
         [](R& r) -> CellSlot { return &r.azimuth_min; }},
        {{"azimuth_max", CellKind::azimuth, Need::optional, "of its holes", full_turn},
         [](R& r) -> CellSlot { return &r.azimuth_max; }},
        {{"length_max", CellKind::length, Need::optional, "longest hole", not_negative},
         [](R& r) -> CellSlot { return &r.pad.length_max; }},
        {{"radius", CellKind::length, Need::optional, "within which holes may be collared", not_negative, nullptr, false},
         [](R& r) -> CellSlot { return &r.pad.radius; }},
        {{"move_cost", CellKind::number, Need::optional, "of bringing the rig", not_negative},
         [](R& r) -> CellSlot { return &r.pad.move_cost; }},
        {{"status", CellKind::text, Need::optional, "free text"}, [](R& r) -> CellSlot { return &r.pad.status; }}};
    return columns;
}

const std::vector<TableDescription>& table_descriptions() {
    static const std::vector<TableDescription> tables = {
        described<CollarRow>("collars", true, "one row a hole"),
        described<SurveyRow>("surveys", true, "one row a station"),
        described<PickRow>("picks", false, "where the geologist sees a vein"),
        described<GeologyRow>("geology", false, "the log"),
        described<AssayRow>("assays", false, "one row a sample, with analyte columns", true, true),
        described<StructureRow>("structures", false, "planes measured on core"),
        described<RecoveryRow>("recovery", false, "one row a core run"),
        described<MineralRow>("minerals", false, "indicator minerals", false),
        described<DrillingRow>("drilling", false, "what happened to the driller"),
        described<SizeRow>("sizes", false, "core sizes, casing, steered lengths"),
        described<OutcropRow>("outcrops", false, "a vein seen at surface or in a trench, with analyte columns", true, true),
        described<PadRow>("pads", false, "where a rig can stand")};
    return tables;
}

}  // namespace selvage::tables
