#pragma once

#include "tables/records.h"

#include <limits>
#include <optional>
#include <string>
#include <variant>
#include <vector>

// The rows of the input tables, cell by cell, before they become records. Private to this room.
namespace selvage::tables {

enum class CellKind {
    text,
    word,    // folded text
    choice,  // one of a closed list of words
    date,
    number,
    whole,
    length,   // in the table's unit
    percent,  // read as a share
    dip,      // of a hole or a plane, degrees, positive down once read
    angle,    // degrees
    azimuth,  // degrees, of the north that the table or row says
    yes_no
};

enum class Need {
    optional,         // may be missing; a cell that cannot be read counts as empty
    matters,          // may be missing; a row whose cell cannot be read is left out
    required_column,  // has to be in the table, cells may be empty
    required          // in the table and filled in every row
};

struct Limits {
    double low = -std::numeric_limits<double>::infinity();
    double high = std::numeric_limits<double>::infinity();
};

using CellSlot = std::variant<std::string*, double*, std::optional<double>*, int*, bool*>;

struct ColumnTraits {
    const char* name;
    CellKind kind;
    Need need;
    const char* meaning;
    Limits limits = {};
    const std::vector<std::string>* words = nullptr;  // of a choice, in the order of its enumeration
    bool has_effect = true;
};

template <typename Row>
struct ColumnOf {
    ColumnTraits traits;
    CellSlot (*slot)(Row&);
};

struct CollarRow {
    Collar collar;
    double east = 0.0, north = 0.0, elevation = 0.0;
    std::optional<double> azimuth, dip;
    int status = 0, type = 0;
    std::string parent, target, target_vein;
    std::optional<double> target_east, target_north, target_elevation, target_radius;
};

struct SurveyRow {
    Survey survey;
    std::optional<double> azimuth, declination;
    double dip = 0.0;
    int reference = -1;  // none given
};

struct PickRow {
    Pick pick;
    int state = 0;
};

struct GeologyRow {
    GeologyInterval geology;
    std::string version;
};

struct AssayRow {
    Assay assay;
    Dispatch dispatch;
    int type = 0, status = 0;
};

struct StructureRow {
    Structure structure;
    std::optional<double> alpha, beta, gamma, dip, dip_direction;
};

struct RecoveryRow {
    Recovery recovery;
    std::optional<double> recovered;
};

struct MineralRow {
    MineralInterval mineral;
};

struct DrillingRow {
    DrillingEvent event;
};

struct SizeRow {
    SizeInterval size;
};

struct OutcropRow {
    Outcrop outcrop;
    double east = 0.0, north = 0.0, elevation = 0.0;
    std::optional<double> dip, dip_direction;
};

struct PadRow {
    Pad pad;
    double east = 0.0, north = 0.0, elevation = 0.0;
    std::optional<double> dip_min, dip_max, azimuth_min, azimuth_max;
};

// The columns of each table; the one of a hole (or pad) comes first.
const std::vector<ColumnOf<CollarRow>>& columns_of(const CollarRow*);
const std::vector<ColumnOf<SurveyRow>>& columns_of(const SurveyRow*);
const std::vector<ColumnOf<PickRow>>& columns_of(const PickRow*);
const std::vector<ColumnOf<GeologyRow>>& columns_of(const GeologyRow*);
const std::vector<ColumnOf<AssayRow>>& columns_of(const AssayRow*);
const std::vector<ColumnOf<StructureRow>>& columns_of(const StructureRow*);
const std::vector<ColumnOf<RecoveryRow>>& columns_of(const RecoveryRow*);
const std::vector<ColumnOf<MineralRow>>& columns_of(const MineralRow*);
const std::vector<ColumnOf<DrillingRow>>& columns_of(const DrillingRow*);
const std::vector<ColumnOf<SizeRow>>& columns_of(const SizeRow*);
const std::vector<ColumnOf<OutcropRow>>& columns_of(const OutcropRow*);
const std::vector<ColumnOf<PadRow>>& columns_of(const PadRow*);

}  // namespace selvage::tables
