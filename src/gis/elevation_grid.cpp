#include "gis/elevation_grid.h"

#include "gis/library.h"

#include <gdal_priv.h>

#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <utility>

namespace selvage::gis {

namespace {

constexpr std::size_t most_cells = 3000;  // each way: a thousandth of a page is finer than anybody draws
constexpr float no_data = std::numeric_limits<float>::quiet_NaN();

// Whole cells of a raster: first column and row, and how many.
struct CellRange {
    int column = 0, row = 0, columns = 0, rows = 0;
};

// The raster's affine map: figures = corner + step * (column, row), both counted from the corner of the first cell.
struct RasterFrame {
    Eigen::Vector2d corner;
    Eigen::Matrix2d step;

    Eigen::Vector2d figures(double column, double row) const { return corner + step * Eigen::Vector2d(column, row); }
    Eigen::Vector2d cell(const Eigen::Vector2d& figures) const { return step.inverse() * (figures - corner); }
};

std::optional<RasterFrame> frame_of(GDALDataset& raster) {
    double t[6];
    if (raster.GetGeoTransform(t) != CE_None) return std::nullopt;
    RasterFrame frame;
    frame.corner = {t[0], t[3]};
    frame.step << t[1], t[2], t[4], t[5];
    return std::abs(frame.step.determinant()) > 0.0 ? std::optional<RasterFrame>(frame) : std::nullopt;
}

// Places round the border of a box, and its middle.
std::vector<Eigen::Vector2d> border_of(const MapBox& box) {
    constexpr int pieces = 20;
    std::vector<Eigen::Vector2d> places{(box.low + box.high) / 2.0};
    for (int i = 0; i <= pieces; ++i) {
        const double share = static_cast<double>(i) / pieces;
        const Eigen::Vector2d at = box.low + share * (box.high - box.low);
        for (const double y : {box.low.y(), box.high.y()}) places.emplace_back(at.x(), y);
        for (const double x : {box.low.x(), box.high.x()}) places.emplace_back(x, at.y());
    }
    return places;
}

CellRange cells_in(const MapBox& window, const RasterFrame& frame, const Carrier& carrier, const GDALDataset& raster) {
    constexpr double rim = 2.0;  // cells
    Eigen::Vector2d low = Eigen::Vector2d::Constant(1e300), high = -low;
    for (const Eigen::Vector2d& place : border_of(window)) {
        const auto figures = carrier.file_from_map(place);
        if (!figures) continue;
        low = low.cwiseMin(frame.cell(*figures));
        high = high.cwiseMax(frame.cell(*figures));
    }
    auto& known = const_cast<GDALDataset&>(raster);
    const Eigen::Vector2d size(known.GetRasterXSize(), known.GetRasterYSize());
    low = (low.array() - rim).max(0.0).min(size.array());
    high = (high.array() + rim).max(0.0).min(size.array());
    CellRange range;
    range.column = static_cast<int>(std::floor(low.x()));
    range.row = static_cast<int>(std::floor(low.y()));
    range.columns = static_cast<int>(std::ceil(high.x())) - range.column;
    range.rows = static_cast<int>(std::ceil(high.y())) - range.row;
    return range;
}

// The cells of a range, in the file's own figures for places and in metres for elevations. Nothing where reading fails.
std::optional<ElevationGrid> read_cells(GDALRasterBand& band, const CellRange& range, const RasterFrame& frame,
                                        double metres_per_unit) {
    ElevationGrid grid;
    const auto thinned = [](int cells) { return std::min(static_cast<std::size_t>(cells), most_cells); };
    grid.columns = thinned(range.columns);
    grid.rows = thinned(range.rows);
    const double wide = static_cast<double>(range.columns) / static_cast<double>(grid.columns);
    const double tall = static_cast<double>(range.rows) / static_cast<double>(grid.rows);
    grid.first = frame.figures(range.column + wide / 2.0, range.row + tall / 2.0);
    grid.along_row = wide * frame.step.col(0);
    grid.along_column = tall * frame.step.col(1);
    std::vector<double> values(grid.columns * grid.rows);
    std::vector<unsigned char> is_there(values.size());
    const int columns = static_cast<int>(grid.columns), rows = static_cast<int>(grid.rows);
    if (band.RasterIO(GF_Read, range.column, range.row, range.columns, range.rows, values.data(), columns, rows, GDT_Float64, 0,
                      0, nullptr) != CE_None ||
        band.GetMaskBand()->RasterIO(GF_Read, range.column, range.row, range.columns, range.rows, is_there.data(), columns, rows,
                                     GDT_Byte, 0, 0, nullptr) != CE_None)
        return std::nullopt;
    int has_scale = 0, has_offset = 0;
    const double scale = band.GetScale(&has_scale), offset = band.GetOffset(&has_offset);
    for (std::size_t i = 0; i < values.size(); ++i) {
        const double value = values[i] * (has_scale != 0 ? scale : 1.0) + (has_offset != 0 ? offset : 0.0);
        const bool good = is_there[i] != 0 && std::isfinite(value);
        grid.elevations.push_back(good ? static_cast<float>(value * metres_per_unit) : no_data);
    }
    return grid;
}

// A north-up grid on the wanted map over the cells of a grid in the file's own system, of about the same cell size.
ElevationGrid carried_over(const ElevationGrid& from, const Carrier& carrier) {
    ElevationGrid grid;
    Eigen::Vector2d low = Eigen::Vector2d::Constant(1e300), high = -low;
    const double columns = static_cast<double>(from.columns), rows = static_cast<double>(from.rows);
    const auto carried = [&](double column, double row) {
        return carrier.map_from_file(from.first + column * from.along_row + row * from.along_column);
    };
    for (const Eigen::Vector2d& cell : border_of({{-0.5, -0.5}, {columns - 0.5, rows - 0.5}}))
        if (const auto place = carried(cell.x(), cell.y())) {
            low = low.cwiseMin(*place);
            high = high.cwiseMax(*place);
        }
    const auto middle = carried(columns / 2.0, rows / 2.0), beside = carried(columns / 2.0 + 1.0, rows / 2.0),
               below = carried(columns / 2.0, rows / 2.0 + 1.0);
    if (!middle || !beside || !below || low.x() > high.x()) return grid;
    Eigen::Matrix2d cell;
    cell << *beside - *middle, *below - *middle;
    const double size = std::sqrt(std::abs(cell.determinant()));
    const auto count = [&](double length) {
        return std::clamp<std::size_t>(static_cast<std::size_t>(std::ceil(length / size)), 1, most_cells);
    };
    grid.columns = count(high.x() - low.x());
    grid.rows = count(high.y() - low.y());
    grid.along_row = {(high.x() - low.x()) / static_cast<double>(grid.columns), 0.0};
    grid.along_column = {0.0, -(high.y() - low.y()) / static_cast<double>(grid.rows)};
    grid.first = Eigen::Vector2d(low.x(), high.y()) + (grid.along_row + grid.along_column) / 2.0;
    for (std::size_t row = 0; row < grid.rows; ++row)
        for (std::size_t column = 0; column < grid.columns; ++column) {
            const auto figures = carrier.file_from_map(grid.first + static_cast<double>(column) * grid.along_row +
                                                       static_cast<double>(row) * grid.along_column);
            const auto elevation = figures ? elevation_at(from, *figures) : std::nullopt;
            grid.elevations.push_back(elevation ? static_cast<float>(*elevation) : no_data);
        }
    return grid;
}

void to_metres(ElevationGrid& grid, double metres_per_unit) {
    grid.first *= metres_per_unit;
    grid.along_row *= metres_per_unit;
    grid.along_column *= metres_per_unit;
}

// Column and row of a place, 0 in the middle of the first cell.
Eigen::Vector2d cell_of(const ElevationGrid& grid, const Eigen::Vector2d& place) {
    Eigen::Matrix2d step;
    step << grid.along_row, grid.along_column;
    return step.inverse() * (place - grid.first);
}

Eigen::Vector2d last_cell(const ElevationGrid& grid) {
    return {static_cast<double>(grid.columns) - 1.0, static_cast<double>(grid.rows) - 1.0};
}

std::unique_ptr<GDALDataset> opened(const std::string& file) {
    return std::unique_ptr<GDALDataset>(GDALDataset::Open(file.c_str(), GDAL_OF_RASTER | GDAL_OF_READONLY));
}

}  // namespace

std::optional<double> elevation_at(const ElevationGrid& grid, const Eigen::Vector2d& place) {
    if (!is_within(grid, place)) return std::nullopt;
    const Eigen::Vector2d cell = cell_of(grid, place).cwiseMax(Eigen::Vector2d::Zero()).cwiseMin(last_cell(grid));
    const auto column = static_cast<std::size_t>(cell.x()), row = static_cast<std::size_t>(cell.y());
    const double right = cell.x() - static_cast<double>(column), down = cell.y() - static_cast<double>(row);
    double sum = 0.0;
    for (const std::size_t i : {std::size_t{0}, std::size_t{1}})
        for (const std::size_t j : {std::size_t{0}, std::size_t{1}}) {
            const double weight = (i == 0 ? 1.0 - right : right) * (j == 0 ? 1.0 - down : down);
            if (weight == 0.0) continue;
            const float corner = grid.at(column + i, row + j);
            if (std::isnan(corner)) return std::nullopt;
            sum += weight * static_cast<double>(corner);
        }
    return sum;
}

bool is_within(const ElevationGrid& grid, const Eigen::Vector2d& place) {
    if (grid.columns == 0 || grid.rows == 0) return false;
    constexpr double half = 0.5 + 1e-9;
    const Eigen::Vector2d cell = cell_of(grid, place);
    return (cell.array() >= -half).all() && (cell.array() <= last_cell(grid).array() + half).all();
}

bool is_raster(const std::string& file) {
    const QuietLibrary library;
    const auto raster = opened(file);
    return raster && raster->GetRasterCount() > 0;
}

Read<ElevationGrid> read_elevation_grid(const std::string& file, int band, const MapTarget& target, const MapBox& window) {
    Read<ElevationGrid> read;
    const QuietLibrary library;
    const auto raster = opened(file);
    if (!raster || raster->GetRasterCount() == 0) {
        read.failure = file + " cannot be read as a raster" + library.said();
        return read;
    }
    if (band < 1 || band > raster->GetRasterCount()) {
        read.failure =
            file + " has " + std::to_string(raster->GetRasterCount()) + " bands, and none of number " + std::to_string(band);
        return read;
    }
    const std::optional<RasterFrame> frame = frame_of(*raster);
    if (!frame) {
        read.failure = file + " does not say where on the map it lies";
        return read;
    }
    Carrier carrier(target, raster->GetProjectionRef() == nullptr ? "" : raster->GetProjectionRef());
    const Eigen::Vector2d far_corner = frame->figures(raster->GetRasterXSize(), raster->GetRasterYSize());
    carrier.look_at(frame->corner, far_corner);
    read.crs = carrier.match();
    read.source_crs = carrier.source_name();
    const CellRange range = cells_in(window, *frame, carrier, *raster);
    if (range.columns <= 0 || range.rows <= 0) {
        read.value.emplace();
        return read;
    }
    std::optional<ElevationGrid> cells = read_cells(*raster->GetRasterBand(band), range, *frame, target.metres_per_unit);
    if (!cells) {
        read.failure = file + " cannot be read whole" + library.said();
    } else if (carrier.match() == CrsMatch::reprojected) {
        read.value = carried_over(*cells, carrier);
    } else {
        to_metres(*cells, target.metres_per_unit);
        read.value = std::move(cells);
    }
    return read;
}

}  // namespace selvage::gis
