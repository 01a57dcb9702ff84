#pragma once

#include "settings/project.h"
#include "site/map_file.h"
#include "site/property.h"
#include "site/relief.h"
#include "site/workings.h"
#include "tables/records.h"

#include <memory>

// What each kind of map file gives, relative to the project origin; what is wrong with it is reported to the file. Private to
// this room.
namespace selvage::site {

// A raster, or points and breaklines by triangles, as far as the project and some room round it reach. Nothing where it does not
// serve.
std::shared_ptr<const Relief> read_topography(MapFile& file, const settings::SiteSettings& settings,
                                              const tables::Records& records);
// Nothing where it holds no area.
std::shared_ptr<const Property> read_property(MapFile& file);
Workings read_workings(MapFile& file, const settings::SiteSettings& settings);

}  // namespace selvage::site
