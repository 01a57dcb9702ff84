#pragma once

#include "base/angle.h"
#include "paths/locate.h"
#include "tables/records.h"

#include <Eigen/Core>

#include <cstddef>
#include <string>
#include <vector>

// Short builders of records with holes, and lookers-up in what comes back.
namespace selvage::paths {

struct Row {
    double depth, azimuth, dip;  // degrees
};

inline tables::Collar collar_named(const std::string& hole, double depth,
                                   const Eigen::Vector3d& position = Eigen::Vector3d::Zero()) {
    tables::Collar collar;
    collar.origin = {"collars", "collars.csv", 2};
    collar.hole = hole;
    collar.position = position;
    collar.depth = depth;
    return collar;
}

inline tables::Survey survey_row(const std::string& hole, const Row& row, const std::string& method = "single shot",
                                 const std::string& run = "") {
    tables::Survey survey;
    survey.origin = {"surveys", "surveys.csv", 2};
    survey.hole = hole;
    survey.depth = row.depth;
    survey.azimuth = base::Azimuth::degrees(row.azimuth);
    survey.dip = base::Dip::degrees(row.dip);
    survey.method = method;
    survey.run = run;
    return survey;
}

inline void add_surveys(tables::Records& records, const std::string& hole, const std::vector<Row>& rows,
                        const std::string& method = "single shot", const std::string& run = "") {
    for (const Row& row : rows) records.surveys.push_back(survey_row(hole, row, method, run));
}

inline tables::Records one_hole(const std::vector<Row>& rows, double depth) {
    tables::Records records;
    records.collars.push_back(collar_named("A-1", depth));
    add_surveys(records, "A-1", rows);
    return records;
}

inline std::size_t count_of(const std::vector<base::Finding>& findings, const std::string& id) {
    std::size_t count = 0;
    for (const base::Finding& finding : findings) count += finding.check->id == id ? 1U : 0U;
    return count;
}

// Whole sizes of one kind of error, everything else zero.
inline PathSettings no_errors() {
    PathSettings settings;
    const base::Angle none;
    settings.survey_errors.usual = {none, none, none, none, none, 0.0};
    settings.survey_errors.collar = 0.0;
    return settings;
}

}  // namespace selvage::paths
