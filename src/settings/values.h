#pragma once

#include "base/json.h"
#include "settings/project.h"

namespace selvage::settings {

// Every key of the project file with the value that holds in this run, set or by default, section by section in the order of the
// table of keys: for the run record. Lengths and points are metres, angles degrees; null where there is none.
base::JsonValue values_of(const Project& project);

}  // namespace selvage::settings
