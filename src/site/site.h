#pragma once

#include "base/finding.h"
#include "paths/path.h"
#include "settings/project.h"
#include "site/ground.h"
#include "site/property.h"
#include "site/workings.h"
#include "tables/records.h"

#include <map>
#include <memory>
#include <string>
#include <vector>

// What is known of the place itself: ground, property, old workings.
namespace selvage::site {

struct Site {
    Ground ground;
    std::shared_ptr<const Property> property;  // nothing: not given
    Workings workings;
    std::map<std::string, std::string> hashes;  // source -> SHA-256 of its bytes
    std::string fingerprint;                    // SHA-256 over what was read; empty: nothing was given
};

// Reads what [topography], [property] and [workings] name, and settles the ground. What cannot be used is named and left out.
base::Checked<Site> read_site(const settings::Project& project, const tables::Records& records);

// The ground where nothing is given.
Site assumed_site(const tables::Records& records);

// How the records and the site fit together: collars and picks against the ground, holes against property and workings.
std::vector<base::Finding> audit_site(const Site& site, const tables::Records& records, const std::vector<paths::Path>& paths,
                                      const settings::Project& project);

const std::vector<const base::Check*>& checks();

}  // namespace selvage::site
