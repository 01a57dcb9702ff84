#include "sheets/vein_extent.h"

#include <algorithm>

namespace selvage::sheets {

VeinExtent::VeinExtent(const std::vector<veins::EdgeLine>& edges, const PlaneLayout& layout) {
    for (const veins::EdgeLine& edge : edges)
        for (std::size_t i = 1; i < edge.points.size(); ++i)
            pieces.push_back({layout.layout_from_world(edge.points[i - 1]), layout.layout_from_world(edge.points[i])});
}

}  // namespace selvage::sheets
