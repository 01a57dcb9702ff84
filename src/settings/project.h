#pragma once

#include "base/angle.h"
#include "base/units.h"

#include <Eigen/Core>

#include <array>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

// The project file as values. Lengths are metres, points whole map coordinates in metres, angles as types.
// Each stage takes only the part that it needs.
namespace selvage::settings {

enum class NorthReference { grid, true_north, magnetic };

// One line of [tables].
struct TableEntry {
    std::string table;                           // the contract's name: "collars"
    std::string source;                          // as the project file writes it
    std::string layer;                           // sheet or layer, where the source has several
    std::map<std::string, std::string> columns;  // our name -> the file's name
    std::optional<NorthReference> azimuth_reference;
    std::optional<base::LengthUnit> length_unit;
    bool dip_negative_down = false;
    std::string encoding;  // empty: UTF-8, else windows-1252 where it is not valid UTF-8
    char decimal = '.';
    std::size_t line = 0;  // in the project file
};

// How azimuths of the surveys (or of a table) become grid azimuths: grid = azimuth + declination - convergence, as the reference
// asks.
struct North {
    NorthReference surveys = NorthReference::grid;
    std::optional<base::Angle> declination;  // east positive
    base::Angle grid_convergence;            // bearing of grid north clockwise from true north
    bool convergence_given = false;          // else it is taken as 0, which nobody has said
};

// Measured core angles.
struct CoreAngles {
    bool beta_from_top = false;                            // beta_reference = "top"
    bool beta_to_uphole_apex = false;                      // beta_apex = "up-hole"
    std::vector<std::string> contact_kinds = {"contact"};  // folded
    bool alpha_as_data = false;                            // [structures] alpha_as_data
};

// 1 sigma sizes of one survey method.
struct SurveyErrorSizes {
    base::Angle azimuth_common = base::Angle::degrees(0.3);
    base::Angle azimuth_hole = base::Angle::degrees(0.3);
    base::Angle azimuth_station = base::Angle::degrees(0.4);
    base::Angle dip_hole = base::Angle::degrees(0.15);
    base::Angle dip_station = base::Angle::degrees(0.2);
    double depth_scale = 0.0005;  // fraction
};

struct SurveyErrors {
    SurveyErrorSizes usual;
    std::map<std::string, SurveyErrorSizes> by_method;  // folded method name; keys not given are the usual ones
    double collar = 0.3;                                // m, each axis, where a collar row has no collar_sd
    base::Angle tool_tilt = base::Angle::degrees(0.3);  // of one reading of the low side

    const SurveyErrorSizes& of(const std::string& folded_method) const;
};

struct VeinSetting {
    std::string name;
    std::optional<Eigen::Vector3d> point;  // map, m
    std::optional<base::Angle> dip;
    std::optional<base::Azimuth> dip_direction;
    std::optional<double> point_sd;  // m
    std::optional<base::Angle> attitude_sd;
    std::string splay_of;  // name of the vein at whose wall it ends; empty: none
    std::size_t line = 0;
};

struct FaultSetting {
    std::string name;
    std::optional<Eigen::Vector3d> point;  // map, m
    std::vector<Eigen::Vector3d> trace;    // map, m: further points, as along its line on the ground
    std::optional<base::Angle> dip;
    std::optional<base::Azimuth> dip_direction;
    std::optional<double> point_sd;  // m
    std::optional<base::Angle> attitude_sd;
    std::optional<Eigen::Vector3d> slip;  // m, how the hanging-wall side moved
    std::optional<double> strike_slip;    // m, right-lateral positive
    std::optional<double> dip_slip;       // m, normal positive
    std::optional<double> slip_sd;        // m, each axis
    std::size_t line = 0;
};

// [analyte.<name>]
struct AnalyteSetting {
    std::string name;               // column as tables print it: "ag_gpt"
    std::string label;              // empty: made from the name
    std::vector<std::string> from;  // columns in order of preference
    std::optional<double> top_cut;
    double below_detection = 0.5;  // share of the limit that stands for a value below it
};

// [cut_off]: which accumulation classes and labels speak of.
struct CutOff {
    std::string analyte;                 // empty: the first analyte of the assays
    std::optional<double> value;         // grade
    std::optional<double> accumulation;  // grade x true thickness of the class break on sheets, analyte's unit x m
    double length_min = 0.0;             // m
    double waste_max = 0.0;              // m
    double width_min = 0.0;              // m
    std::vector<double> including;       // higher cut-offs
};

// [composites]
struct CompositeRules {
    bool weight_by_density = false;
    bool unsampled_is_zero = true;  // where sampled_share is under 0.8
};

struct Rig {
    base::Angle dip_min = base::Angle::degrees(45);
    base::Angle dip_max = base::Angle::degrees(90);
    double length_max = 800.0;  // m
    double cost_per_length = 1.0;
    base::Angle wedge_angle = base::Angle::degrees(1.5);
    double wedge_cost = 20.0;
};

struct Plan {
    std::optional<double> spacing;   // m; default: the hole spacing found in the data
    std::optional<double> step_out;  // m; default: twice the hole spacing
    std::size_t count = 10;
    base::Angle angle_min = base::Angle::degrees(30);
    double clearance = 5.0;                      // m from other holes and workings
    double tail = 15.0;                          // m of foot wall after the vein
    std::vector<double> weights{1.0, 0.5, 0.0};  // of information, value and cost in the choice of step-outs
};

// A file of the map: the keys that [topography], [property] and [workings] share.
struct MapSource {
    std::string source;  // as the project file writes it; empty: none is given
    std::string layer;   // empty: all of them; of a raster the number of its band
    std::string crs;     // empty: what the file says itself
    std::optional<base::LengthUnit> length_unit;
};

struct SiteSettings {
    MapSource topography, property, workings;
    std::string elevation_field = "elevation";  // of lines and points that have none of their own
    std::optional<double> contour_interval;     // m
    double workings_height = 2.5;               // m, of workings given by one level; common practice, no source
};

struct Sections {
    std::optional<base::Azimuth> azimuth;   // of the section line; default: across the first vein's strike
    std::optional<double> spacing;          // m
    std::optional<Eigen::Vector2d> origin;  // map, m: where section 0 crosses the base line
    std::optional<base::Azimuth> looking;
};

struct SheetSettings {
    std::string paper = "A3";  // landscape
    std::string largest_paper = "A1";
    std::string style = "default";
    std::optional<double> smallest_scale;  // its denominator: what would need a smaller one is split over sheets
    bool nothing_new = true;               // false: cross sections, levels and logs without anything new are left out
};

struct TitleBlock {
    std::string owner, number, created_by, approved_by, status;
};

struct Disclosure {
    std::string code, edition;
};

struct Project {
    std::string name;
    std::string file;                // as given on the command line, for messages
    std::string folder;              // where its relative paths start
    std::string text;                // the file's bytes
    std::string values;              // what it sets outside [tables], one "key = value" a line, sorted: for the fingerprint
    std::vector<std::string> order;  // oldest first
    base::LengthUnit length_unit = base::LengthUnit::metre;
    std::string crs;
    std::optional<std::string> date;  // ISO 8601
    North north;
    CoreAngles core_angles;
    SurveyErrors survey_errors;
    std::vector<std::string> survey_preference;  // folded methods, best first
    TitleBlock title_block;
    std::vector<TableEntry> tables;  // in the contract's order of tables
    std::vector<VeinSetting> veins;
    std::vector<FaultSetting> faults;
    std::vector<AnalyteSetting> analytes;
    CutOff cut_off;
    CompositeRules composites;
    Rig rig;
    Plan plan;
    SiteSettings site;
    Sections sections;
    SheetSettings sheets;
    Disclosure disclosure;
    std::vector<std::string> not_honoured_yet;  // keys that were read and have no effect so far, as "fault.slip"
};

}  // namespace selvage::settings
