#include "numerics/triangular_product.h"

#include <algorithm>
#include <cstring>
#include <vector>

// The processor's widest instructions, chosen when the program starts. Sanitizers cannot follow that choice.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__)
#define SELVAGE_WIDEST __attribute__((target_clones("arch=x86-64-v4", "arch=x86-64-v3", "default")))
#else
#define SELVAGE_WIDEST
#endif

namespace selvage::numerics {

namespace {

using Index = Eigen::Index;

constexpr Index lanes = 8;         // columns side by side, one a lane
constexpr Index strip = 8;         // rows that are brought together at once: a cache line of a column
constexpr Index group = 8;         // strips that are brought together at once
constexpr Index rows_at_once = 4;  // as many sums as registers hold

typedef double Lanes __attribute__((vector_size(lanes * sizeof(double))));

// Adds the squares of four rows' products with eight columns. `rows` steps by a strip, `panel` by the lanes.
SELVAGE_WIDEST void add_squares(const double* rows, const double* panel, Index terms, double* squares) {
    Lanes first{}, second{}, third{}, fourth{};
    for (Index j = 0; j < terms; ++j, rows += strip, panel += lanes) {
        Lanes column;
        std::memcpy(&column, panel, sizeof column);
        first += rows[0] * column;
        second += rows[1] * column;
        third += rows[2] * column;
        fourth += rows[3] * column;
    }
    Lanes sum;
    std::memcpy(&sum, squares, sizeof sum);
    sum += first * first;
    sum += second * second;
    sum += third * third;
    sum += fourth * fourth;
    std::memcpy(squares, &sum, sizeof sum);
}

// Eight columns after the other, each panel's with its lanes together; what is wanting at the end is zero.
Eigen::MatrixXd panels_of(const Eigen::MatrixXd& columns) {
    const Index terms = columns.rows(), panels = (columns.cols() + lanes - 1) / lanes;
    Eigen::MatrixXd packed(lanes, terms * panels);
    packed.rightCols(terms).setZero();
    for (Index p = 0; p < panels; ++p) {
        const Index width = std::min(lanes, columns.cols() - p * lanes);
        packed.block(0, p * terms, width, terms) = columns.middleCols(p * lanes, width).transpose();
    }
    return packed;
}

// Strips of the lower triangle from row `top` on, each strip's columns one after the other up to its last row; above the diagonal
// and below the last row zero. Several strips at once, so that a column is read in a run and not a cache line a time.
void pack_strips(const Eigen::MatrixXd& lower, Index top, std::vector<double>& packed) {
    const Index size = lower.rows();
    for (Index j = 0; j < std::min(size, top + group * strip); ++j) {
        const double* column = lower.col(j).data();
        for (Index s = 0; s < group; ++s) {
            const Index from = top + s * strip, count = std::clamp(size - from, Index{0}, strip);
            if (j >= from + count) continue;
            double* to = packed.data() + (s * size + j) * strip;
            const Index zeros = std::max(Index{0}, j - from);
            std::fill_n(to, zeros, 0.0);
            std::copy_n(column + from + zeros, count - zeros, to + zeros);
            std::fill(to + count, to + strip, 0.0);
        }
    }
}

}  // namespace

Eigen::VectorXd squared_columns(const Eigen::MatrixXd& lower, const Eigen::MatrixXd& columns) {
    const Index size = lower.rows();
    if (size == 0 || columns.cols() == 0) return Eigen::VectorXd::Zero(columns.cols());
    const Eigen::MatrixXd panels = panels_of(columns);
    Eigen::VectorXd squares = Eigen::VectorXd::Zero(panels.cols() / size * lanes);
    std::vector<double> packed(static_cast<std::size_t>(group * strip * size));
    for (Index top = 0; top < size; top += group * strip) {
        pack_strips(lower, top, packed);
        for (Index s = 0; s < group && top + s * strip < size; ++s)
            for (Index p = 0; p < panels.cols() / size; ++p)
                for (Index half = 0; half < strip; half += rows_at_once)
                    add_squares(packed.data() + s * size * strip + half, panels.col(p * size).data(),
                                std::min(size, top + (s + 1) * strip), squares.data() + p * lanes);
    }
    return squares.head(columns.cols());
}

}  // namespace selvage::numerics
