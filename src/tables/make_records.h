#pragma once

#include "tables/analytes.h"
#include "tables/read_rows.h"
#include "tables/records.h"

#include <vector>

// Rows to records, one function a table: angles as types, grid north, metres. Points are whole map coordinates in metres still;
// `settle_origin` makes them relative. Private to this room.
namespace selvage::tables {

std::vector<Collar> read_collars(TableReading& reading);
std::vector<Survey> read_surveys(TableReading& reading);
std::vector<Pick> read_picks(TableReading& reading);
std::vector<GeologyInterval> read_geology(TableReading& reading);
std::vector<Assay> read_assays(TableReading& reading, const std::vector<AnalyteColumns>& analytes);
std::vector<Structure> read_structures(TableReading& reading);
std::vector<Recovery> read_recovery(TableReading& reading);
std::vector<MineralInterval> read_minerals(TableReading& reading);
std::vector<DrillingEvent> read_drilling(TableReading& reading);
std::vector<SizeInterval> read_sizes(TableReading& reading);
std::vector<Outcrop> read_outcrops(TableReading& reading, const std::vector<AnalyteColumns>& analytes);
std::vector<Pad> read_pads(TableReading& reading);

// The project origin, from the collars: the median of each coordinate, rounded to 1000 m, of elevations to 100 m, so that an
// odd collar does not move it. All points become relative to it.
void settle_origin(Records& records);

}  // namespace selvage::tables
