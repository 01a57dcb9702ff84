#include "tables/make_records.h"

#include "tables/north.h"
#include "tables/table_checks.h"

#include <fmt/format.h>

#include <memory>
#include <utility>

namespace selvage::tables {

namespace {

using settings::NorthReference;

// An azimuth of a table other than surveys: grid unless the table's entry says otherwise.
std::optional<base::Azimuth> azimuth_in(const TableReading& reading, const std::optional<double>& measured) {
    if (!measured) return std::nullopt;
    return grid_azimuth(*measured, reading.entry.azimuth_reference.value_or(NorthReference::grid),
                        reading.project.north.declination, reading.project.north.grid_convergence);
}

std::optional<base::Attitude> attitude_in(const TableReading& reading, const std::optional<double>& dip,
                                          const std::optional<double>& dip_direction) {
    const std::optional<base::Azimuth> direction = azimuth_in(reading, dip_direction);
    if (!dip || !direction) return std::nullopt;
    return base::Attitude{base::Angle::degrees(*dip), *direction};
}

std::optional<base::Angle> angle_of(const std::optional<double>& degrees) {
    return degrees ? std::optional<base::Angle>(base::Angle::degrees(*degrees)) : std::nullopt;
}

Collar collar_of(const TableReading& reading, CollarRow row, std::size_t at) {
    Collar collar = std::move(row.collar);
    collar.origin = reading.origin(at);
    collar.position = {row.east, row.north, row.elevation};
    collar.azimuth = azimuth_in(reading, row.azimuth);
    if (row.dip) collar.dip = base::Dip::degrees(*row.dip);
    collar.status = static_cast<HoleStatus>(row.status);
    collar.type = static_cast<HoleType>(row.type);
    if (!row.parent.empty()) collar.parent = std::move(row.parent);
    const bool placed = row.target_east && row.target_north && row.target_elevation;
    if (placed || !row.target.empty() || !row.target_vein.empty()) {
        collar.target = Target{row.target, row.target_vein, std::nullopt, row.target_radius};
        if (placed) collar.target->point = Eigen::Vector3d(*row.target_east, *row.target_north, *row.target_elevation);
    }
    return collar;
}

std::optional<base::Azimuth> survey_azimuth(TableReading& reading, const SurveyRow& row, NorthReference reference,
                                            std::size_t at) {
    if (!row.azimuth) return std::nullopt;
    const settings::North& north = reading.project.north;
    const std::optional<base::Angle> declination = row.declination ? angle_of(row.declination) : north.declination;
    const std::optional<base::Azimuth> azimuth = grid_azimuth(*row.azimuth, reference, declination, north.grid_convergence);
    if (!azimuth) reading.report(no_declination, at, "a magnetic azimuth without declination: only the dip is used");
    return azimuth;
}

Survey survey_of(TableReading& reading, SurveyRow row, std::size_t at) {
    const NorthReference of_table = reading.entry.azimuth_reference.value_or(reading.project.north.surveys);
    const NorthReference reference = row.reference < 0 ? of_table : static_cast<NorthReference>(row.reference);
    Survey survey = std::move(row.survey);
    survey.origin = reading.origin(at);
    survey.azimuth = survey_azimuth(reading, row, reference, at);
    survey.magnetic = survey.azimuth.has_value() && reference == NorthReference::magnetic;
    survey.dip = base::Dip::degrees(row.dip);
    return survey;
}

// Standards and blanks come from nowhere in the hole; everything else needs its place.
bool has_place(TableReading& reading, const AssayRow& row, std::size_t at) {
    const auto type = static_cast<SampleType>(row.type);
    if (type == SampleType::standard || type == SampleType::blank) return true;
    const char* missing = row.assay.hole.empty() ? "hole" : !row.assay.from ? "from" : !row.assay.to ? "to" : nullptr;
    if (missing == nullptr) return true;
    reading.report(cell_missing, at, fmt::format("{} is empty or cannot be read: the row is left out", missing));
    return false;
}

AssayValue assay_value(TableReading& reading, const AnalyteColumns& analyte, const std::vector<AnalyteSource>& sources,
                       std::size_t at) {
    AssayValue best;
    for (const AnalyteSource& source : sources) {
        const AssayCell cell =
            read_assay(reading.table.cell(at, source.column), source, analyte.below_detection, reading.entry.decimal);
        if (!cell.problem.empty())
            reading.report(not_an_assay, at,
                           fmt::format("{} {}: it counts as not assayed", reading.table.columns[source.column], cell.problem));
        best = better_of(best, cell.value);
    }
    return best;
}

using Sources = std::vector<std::vector<AnalyteSource>>;

Sources with_limits(const TableReading& reading, Sources sources) {
    for (std::vector<AnalyteSource>& of_analyte : sources)
        for (AnalyteSource& source : of_analyte) source.limits = limits_in(reading.table, source.column, reading.entry.decimal);
    return sources;
}

std::vector<AssayValue> assay_values(TableReading& reading, const std::vector<AnalyteColumns>& analytes, const Sources& sources,
                                     std::size_t at) {
    std::vector<AssayValue> values(analytes.size());
    for (std::size_t i = 0; i < analytes.size(); ++i) values[i] = assay_value(reading, analytes[i], sources[i], at);
    return values;
}

// From the bottom line to the down-hole end of the long axis, whatever the file's convention: both other choices turn it by 180.
base::Angle bottom_beta(double beta, const settings::CoreAngles& convention) {
    const double turned = beta + (convention.beta_from_top ? 180.0 : 0.0) + (convention.beta_to_uphole_apex ? 180.0 : 0.0);
    return base::Azimuth::degrees(turned).angle();
}

}  // namespace

std::vector<Collar> read_collars(TableReading& reading) {
    std::vector<Collar> collars;
    read_rows<CollarRow>(reading,
                         [&](CollarRow&& row, std::size_t at) { collars.push_back(collar_of(reading, std::move(row), at)); });
    return collars;
}

std::vector<Survey> read_surveys(TableReading& reading) {
    std::vector<Survey> surveys;
    read_rows<SurveyRow>(reading,
                         [&](SurveyRow&& row, std::size_t at) { surveys.push_back(survey_of(reading, std::move(row), at)); });
    return surveys;
}

std::vector<Pick> read_picks(TableReading& reading) {
    std::vector<Pick> picks;
    read_rows<PickRow>(reading, [&](PickRow&& row, std::size_t at) {
        row.pick.origin = reading.origin(at);
        row.pick.state = static_cast<PickState>(row.state);
        picks.push_back(std::move(row.pick));
    });
    return picks;
}

std::vector<GeologyInterval> read_geology(TableReading& reading) {
    std::vector<GeologyInterval> geology;
    read_rows<GeologyRow>(reading, [&](GeologyRow&& row, std::size_t at) {
        row.geology.origin = reading.origin(at);
        geology.push_back(std::move(row.geology));
    });
    return geology;
}

std::vector<Assay> read_assays(TableReading& reading, const std::vector<AnalyteColumns>& analytes) {
    Sources sources;
    for (const AnalyteColumns& analyte : analytes) sources.push_back(analyte.assays);
    sources = with_limits(reading, std::move(sources));
    std::vector<Assay> assays;
    assays.reserve(reading.table.row_count());
    auto dispatch = std::make_shared<const Dispatch>();
    read_rows<AssayRow>(reading, [&](AssayRow&& row, std::size_t at) {
        if (!has_place(reading, row, at)) return;
        row.assay.origin = reading.origin(at);
        row.assay.type = static_cast<SampleType>(row.type);
        row.assay.status = static_cast<SampleStatus>(row.status);
        row.assay.values = assay_values(reading, analytes, sources, at);
        if (!(row.dispatch == *dispatch)) dispatch = std::make_shared<const Dispatch>(std::move(row.dispatch));
        row.assay.dispatch = dispatch;
        assays.push_back(std::move(row.assay));
    });
    return assays;
}

std::vector<Structure> read_structures(TableReading& reading) {
    std::vector<Structure> structures;
    read_rows<StructureRow>(reading, [&](StructureRow&& row, std::size_t at) {
        Structure structure = std::move(row.structure);
        structure.origin = reading.origin(at);
        structure.alpha = angle_of(row.alpha);
        if (row.beta) structure.beta = bottom_beta(*row.beta, reading.project.core_angles);
        structure.gamma = angle_of(row.gamma);
        structure.attitude = attitude_in(reading, row.dip, row.dip_direction);
        structures.push_back(std::move(structure));
    });
    return structures;
}

std::vector<Recovery> read_recovery(TableReading& reading) {
    std::vector<Recovery> recovery;
    read_rows<RecoveryRow>(reading, [&](RecoveryRow&& row, std::size_t at) {
        Recovery run = std::move(row.recovery);
        run.origin = reading.origin(at);
        if (!run.recovery && row.recovered && run.to > run.from) run.recovery = *row.recovered / (run.to - run.from);
        recovery.push_back(std::move(run));
    });
    return recovery;
}

std::vector<MineralInterval> read_minerals(TableReading& reading) {
    std::vector<MineralInterval> minerals;
    read_rows<MineralRow>(reading, [&](MineralRow&& row, std::size_t at) {
        row.mineral.origin = reading.origin(at);
        minerals.push_back(std::move(row.mineral));
    });
    return minerals;
}

std::vector<DrillingEvent> read_drilling(TableReading& reading) {
    std::vector<DrillingEvent> events;
    read_rows<DrillingRow>(reading, [&](DrillingRow&& row, std::size_t at) {
        row.event.origin = reading.origin(at);
        events.push_back(std::move(row.event));
    });
    return events;
}

std::vector<SizeInterval> read_sizes(TableReading& reading) {
    std::vector<SizeInterval> sizes;
    read_rows<SizeRow>(reading, [&](SizeRow&& row, std::size_t at) {
        row.size.origin = reading.origin(at);
        sizes.push_back(std::move(row.size));
    });
    return sizes;
}

std::vector<Outcrop> read_outcrops(TableReading& reading, const std::vector<AnalyteColumns>& analytes) {
    Sources sources;
    for (const AnalyteColumns& analyte : analytes) sources.push_back(analyte.outcrops);
    sources = with_limits(reading, std::move(sources));
    std::vector<Outcrop> outcrops;
    read_rows<OutcropRow>(reading, [&](OutcropRow&& row, std::size_t at) {
        Outcrop outcrop = std::move(row.outcrop);
        outcrop.origin = reading.origin(at);
        outcrop.position = {row.east, row.north, row.elevation};
        outcrop.attitude = attitude_in(reading, row.dip, row.dip_direction);
        outcrop.values = assay_values(reading, analytes, sources, at);
        outcrops.push_back(std::move(outcrop));
    });
    return outcrops;
}

std::vector<Pad> read_pads(TableReading& reading) {
    std::vector<Pad> pads;
    read_rows<PadRow>(reading, [&](PadRow&& row, std::size_t at) {
        Pad pad = std::move(row.pad);
        pad.origin = reading.origin(at);
        pad.position = {row.east, row.north, row.elevation};
        pad.dip_min = angle_of(row.dip_min);
        pad.dip_max = angle_of(row.dip_max);
        pad.azimuth_min = azimuth_in(reading, row.azimuth_min);
        pad.azimuth_max = azimuth_in(reading, row.azimuth_max);
        pads.push_back(std::move(pad));
    });
    return pads;
}

}  // namespace selvage::tables
