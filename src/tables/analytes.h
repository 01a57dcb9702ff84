#pragma once

#include "base/finding.h"
#include "base/table.h"
#include "settings/project.h"
#include "tables/bind_columns.h"
#include "tables/records.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace selvage::tables {

// A folded column name that is an analyte: "<element>_<unit>" or "<element>_<word>_<unit>" with the symbol of a chemical element.
struct AnalyteName {
    std::string element;         // "Ag"
    std::string unit;            // as labels write it: "g/t", "ppm", "ppb", "%", "oz/st", "oz/t"
    double grams_per_tonne = 1;  // in one of the unit
};
std::optional<AnalyteName> analyte_of(std::string_view folded_column);

// A column from which an analyte's values are taken.
struct AnalyteSource {
    std::size_t column = 0;
    double factor = 1.0;           // from the column's unit to the analyte's
    double grams_per_tonne = 1.0;  // in one of the column's unit
    std::vector<double> limits;    // detection limits seen in it as "<0.5", sorted
};

// One analyte, and the columns of each table that give it, the best first.
struct AnalyteColumns {
    Analyte analyte;
    double below_detection = 0.5;  // share of the limit
    std::vector<AnalyteSource> assays, outcrops;
};

// The analytes of a project in the order in which the assays, then the outcrops have them. An element with several columns needs
// `from` in its [analyte.<name>]; without it, it is reported and left out.
std::vector<AnalyteColumns> choose_analytes(const settings::Project& project, const base::Table* assays,
                                            const std::vector<AnalyteColumn>& assay_columns, const base::Table* outcrops,
                                            const std::vector<AnalyteColumn>& outcrop_columns,
                                            std::vector<base::Finding>& findings);

// The detection limits that a column holds.
std::vector<double> limits_in(const base::Table& table, std::size_t column, char decimal);

// What a cell says, in the analyte's unit; a text where it says nothing that can be understood. Understood are numbers, "<0.5"
// and "-0.5" where 0.5 is one of the column's limits, ">1500", and the words for "not assayed".
struct AssayCell {
    AssayValue value;
    std::string problem;
};
AssayCell read_assay(std::string_view cell, const AnalyteSource& source, double below_detection, char decimal);

// Of two columns' values the first that is assayed and not over its limit, else the one with the higher limit.
AssayValue better_of(const AssayValue& first, const AssayValue& second);

}  // namespace selvage::tables
