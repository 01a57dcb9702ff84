#pragma once

#include "base/finding.h"
#include "base/json.h"
#include "drawing/sheet.h"
#include "forecast/not_seen.h"
#include "forecast/pierce.h"
#include "forecast/vein_of.h"
#include "intercepts/intercept.h"
#include "orientation/orient.h"
#include "orientation/structure_sets.h"
#include "paths/path.h"
#include "planning/step_outs.h"
#include "settings/project.h"
#include "site/site.h"
#include "tables/records.h"
#include "veins/solid.h"
#include "veins/vein.h"

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

// Results to files: tables, run record, the swap of the folder.
namespace selvage::output {

// A file of the pack: path relative to the output folder, and its bytes.
struct PackFile {
    std::string name;
    std::string bytes;
};

// What a column holds; the unit rule and the digits follow from it. Lengths, areas, covariances and accumulations are in the
// project's length unit, angles in degrees. Point, no exponent, no "-0"; unknown is empty.
enum class Quantity {
    text,          // words
    count,         // whole number
    flag,          // 1 yes, 0 no
    coordinate,    // whole map coordinate, 3 decimals
    length,        // 3 decimals
    length_sd,     // 1 sigma of a length or place, 3 decimals
    angle,         // 2 decimals
    azimuth,       // clockwise from grid north, 0 up to 360, 2 decimals
    presence,      // a chance, 0 to 1, 4 decimals
    share,         // part of a whole, 0 to 1, 4 decimals
    percent,       // 0 to 100, 2 decimals
    grade,         // the analyte's unit, 6 significant digits
    accumulation,  // the analyte's unit times a length, 6 significant digits
    covariance,    // squared length, 8 decimals
    area,          // squared length, 3 decimals
    tangent,       // slope as rise over run, 4 decimals
    number,        // a figure without unit, 4 decimals
    money          // 2 decimals
};

struct Column {
    std::string name;
    Quantity quantity = Quantity::text;
    std::string meaning;
    // 0: stands once. Else "<analyte>" in the name stands for each analyte in turn ("<unit>" for m or ft), and neighbours of one
    // number are repeated together.
    int repeats = 0;
};

// A table's columns are described once: CSV, reference page and tests read this.
struct TableDescription {
    std::string name;  // "paths"
    std::string meaning;
    std::vector<Column> columns;  // in their order in the file
};
const std::vector<TableDescription>& table_descriptions();

// All that the stages before the sheets give.
struct Results {
    settings::Project project;
    tables::Records records;
    site::Site site;
    std::vector<paths::Path> paths;  // none: the data leave nothing sound to draw, and what follows is empty
    std::vector<orientation::Orientation> orientations;
    std::vector<orientation::StructureSet> structure_sets;
    faults::Events events;
    intercepts::Intercepts intercepts;
    std::vector<veins::Vein> veins;
    std::vector<veins::VeinSolid> solids;  // of each vein's blocks
    std::vector<veins::AlphaTest> alpha_tests;
    forecast::Forecast forecast;
    std::vector<forecast::NotSeen> not_seen;
    std::vector<planning::StepOut> step_outs;
    std::vector<forecast::VeinOf> veins_of;  // of logged veins without a name
    std::vector<base::Finding> findings;
};

// tables/*.csv: paths, orientations, intercepts, no_vein, pierce_points, not_seen_yet, fit, veins,
// alpha_tests, sets, vein_of, slips, step_outs, checks.
std::vector<PackFile> table_files(const Results& results);

// What the run record says beside the results.
struct RecordParts {
    std::string run_name;                            // as on the sheets
    std::string date;                                // ISO 8601, or empty
    std::vector<base::JsonValue> earlier_forecasts;  // of the record of an earlier run, carried on
    std::vector<std::string> files;                  // every other file of the pack
};

// run.json: format number, version, hashes of the inputs, settings, counts, warnings, label figures a sheet, every forecast so
// far, the files of the pack. Lengths and points in it are metres, angles degrees. Forecasts that an earlier run of the same name
// made are replaced by this run's.
PackFile run_record(const Results& results, const std::vector<drawing::Sheet>& sheets, const std::string& version,
                    const RecordParts& parts = {});

// "sheets/07-long-section-sorrel.pdf": sheet `number` (1 for the first) of `count`, with as many digits as the pack needs, at
// least two.
std::string sheet_file_name(const drawing::Sheet& sheet, std::size_t number, std::size_t count);

// Whether a folder may be replaced: it is missing, empty, or holds only what an earlier run wrote (its run.json lists the files).
// Otherwise the names that are in the way.
std::vector<std::string> foreign_files(const std::filesystem::path& folder);

// Writes the files to a folder beside, then swaps it with `folder` in one rename (exchange), and removes the old one: `folder`
// holds the old pack or the new one, never a mixture. Folders above it are made. Throws base::MachineError where the machine
// fails or foreign files have come into the folder: then it is as it was.
void replace_folder(const std::filesystem::path& folder, const std::vector<PackFile>& files);

}  // namespace selvage::output
