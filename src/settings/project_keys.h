#pragma once

#include "base/angle.h"
#include "settings/project.h"

#include <Eigen/Core>

#include <cstddef>
#include <functional>
#include <limits>
#include <optional>
#include <string>
#include <variant>
#include <vector>

// The one table of the project file's keys: from it come the reader, the defaults and the reference page. Private to this room.
namespace selvage::settings {

enum class Kind {
    text,
    choice,
    date,
    yes_no,
    number,
    count,
    length,           // in the project's length unit
    per_length,       // a cost for each of the project's length unit
    grade_by_length,  // a grade times a length
    angle,            // degrees
    azimuth,          // degrees clockwise from north, 0 to 360
    point,            // east, north, elevation in the project's length unit
    points,           // a list of such
    map_point,        // east, north
    texts,
    numbers,
    weights,        // three numbers
    named_numbers,  // a table of numbers
};
const char* word_of(Kind kind);

struct Range {
    double low = -std::numeric_limits<double>::infinity();
    double high = std::numeric_limits<double>::infinity();
};

// A closed list of words, which one stands now, and how another is taken.
struct Choice {
    std::vector<std::string> words;
    std::size_t now = 0;
    std::function<void(std::size_t)> take;
};

// Where a value is kept. monostate: nowhere, it has no effect yet.
using Slot = std::variant<std::monostate, Choice, std::string*, std::optional<std::string>*, std::vector<std::string>*, bool*,
                          double*, std::optional<double>*, std::vector<double>*, std::size_t*, base::Angle*,
                          std::optional<base::Angle>*, base::Azimuth*, std::optional<base::Azimuth>*, Eigen::Vector3d*,
                          std::optional<Eigen::Vector3d>*, std::optional<Eigen::Vector2d>*, std::vector<Eigen::Vector3d>*>;

// A key of a section that is kept in a T.
template <typename T>
struct KeyOf {
    const char* name;
    Kind kind;
    Slot (*slot)(T&);
    Range range;
    const char* default_note;  // what holds without it where its slot does not tell: "required", "the newest date in the tables"
    const char* meaning;
    bool has_effect = true;
};

template <typename T>
struct Section {
    const char* name;  // as the reference prints it
    std::vector<KeyOf<T>> keys;
    bool has_effect = true;
};

// Sections that are kept in the project itself, in the order of the reference; the first is the top of the file.
const std::vector<Section<Project>>& plain_sections();
// Those of which there may be several.
const Section<TableEntry>& table_section();
const Section<VeinSetting>& vein_section();
const Section<FaultSetting>& fault_section();
const Section<AnalyteSetting>& analyte_section();
// [survey_errors] holds the keys of this section and those of the plain section of that name.
const Section<SurveyErrorSizes>& usual_errors_section();
const Section<SurveyErrorSizes>& survey_method_section();
// A metal equivalent is read and kept nowhere yet.
struct EquivalentSetting {
    std::string name;
};
const Section<EquivalentSetting>& equivalent_section();

// The tables that [tables] may name, in the order in which they are read.
const std::vector<std::string>& table_names();

}  // namespace selvage::settings
