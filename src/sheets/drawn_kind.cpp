#include "sheets/drawn_kind.h"

namespace selvage::sheets {

paths::PathKind drawn_kind(const paths::Path& path, double depth) {
    const paths::PathKind kind = paths::kind_at(path, depth);
    return kind == paths::PathKind::forecast && depth <= path.drilled_depth ? paths::PathKind::extrapolated : kind;
}

}  // namespace selvage::sheets
