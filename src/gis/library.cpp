#include "gis/library.h"

#include <cpl_error.h>
#include <gdal_priv.h>
#include <ogr_spatialref.h>

#include <cmath>
#include <mutex>

namespace selvage::gis {

namespace {

using Transformation = std::unique_ptr<OGRCoordinateTransformation>;

// A system by any name that the library knows, east before north; nothing where it does not know it.
std::unique_ptr<OGRSpatialReference> system_of(const std::string& words) {
    auto system = std::make_unique<OGRSpatialReference>();
    if (words.empty() || system->SetFromUserInput(words.c_str()) != OGRERR_NONE) return nullptr;
    if (system->IsLocal() != 0) return nullptr;  // a drawing's own, that is on no map
    if (system->IsCompound() != 0) system->StripVertical();
    system->SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    return system;
}

bool same_system(const OGRSpatialReference& a, const OGRSpatialReference& b) {
    const char* const loosely[] = {"IGNORE_DATA_AXIS_TO_SRS_AXIS_MAPPING=YES", "CRITERION=EQUIVALENT_EXCEPT_AXIS_ORDER_GEOGCRS",
                                   nullptr};
    return a.IsSame(&b, loosely) != 0;
}

std::optional<Eigen::Vector2d> transformed(const Transformation& how, Eigen::Vector2d place) {
    int good = 0;
    how->Transform(1, &place.x(), &place.y(), nullptr, &good);
    if (good == 0 || !place.allFinite()) return std::nullopt;
    return place;
}

}  // namespace

QuietLibrary::QuietLibrary() {
    static std::once_flag registered;
    std::call_once(registered, [] { GDALAllRegister(); });
    CPLPushErrorHandler(CPLQuietErrorHandler);
    CPLErrorReset();
}

QuietLibrary::~QuietLibrary() { CPLPopErrorHandler(); }

std::string QuietLibrary::said() const {
    const std::string words = CPLGetLastErrorMsg();
    return words.empty() ? words : ": " + words;
}

struct Carrier::Systems {
    CrsMatch match = CrsMatch::not_compared;
    std::string source_name;
    bool in_degrees = false;
    double metres_per_file_unit = 1.0, metres_per_map_unit = 1.0;
    Transformation forward, back;
};

Carrier::Carrier(const MapTarget& target, const std::string& source_wkt) : systems_(std::make_unique<Systems>()) {
    Systems& s = *systems_;
    s.metres_per_file_unit = target.metres_per_unit;
    const auto wanted = system_of(target.crs);
    const auto source = system_of(target.source_crs.empty() ? source_wkt : target.source_crs);
    if (source) s.source_name = source->GetName();
    s.in_degrees = source && source->IsGeographic() != 0;
    if (!target.crs.empty() && !wanted) s.match = CrsMatch::wanted_unknown;
    if (!wanted || !source) return;
    s.match = CrsMatch::same;
    if (same_system(*wanted, *source)) return;
    s.forward.reset(OGRCreateCoordinateTransformation(source.get(), wanted.get()));
    s.back.reset(OGRCreateCoordinateTransformation(wanted.get(), source.get()));
    if (!s.forward || !s.back) {
        s.match = CrsMatch::wanted_unknown;
        return;
    }
    s.match = CrsMatch::reprojected;
    s.metres_per_map_unit = wanted->GetLinearUnits();
}

Carrier::~Carrier() = default;

CrsMatch Carrier::match() const { return systems_->match; }
const std::string& Carrier::source_name() const { return systems_->source_name; }

void Carrier::look_at(const Eigen::Vector2d& lowest, const Eigen::Vector2d& highest) {
    constexpr double full_turn = 360.0, pole = 90.0;
    const double east = std::max(std::abs(lowest.x()), std::abs(highest.x()));
    const double north = std::max(std::abs(lowest.y()), std::abs(highest.y()));
    if (systems_->match == CrsMatch::reprojected && systems_->in_degrees && (east > full_turn || north > pole))
        systems_->match = CrsMatch::not_degrees;
}

std::optional<Eigen::Vector2d> Carrier::map_from_file(const Eigen::Vector2d& figures) const {
    const Systems& s = *systems_;
    if (s.match != CrsMatch::reprojected) return Eigen::Vector2d(figures * s.metres_per_file_unit);
    const auto place = transformed(s.forward, figures);
    if (!place) return std::nullopt;
    return Eigen::Vector2d(*place * s.metres_per_map_unit);
}

std::optional<Eigen::Vector2d> Carrier::file_from_map(const Eigen::Vector2d& place) const {
    const Systems& s = *systems_;
    if (s.match != CrsMatch::reprojected) return Eigen::Vector2d(place / s.metres_per_file_unit);
    return transformed(s.back, place / s.metres_per_map_unit);
}

}  // namespace selvage::gis
