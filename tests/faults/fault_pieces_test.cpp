#include "faults/fault_pieces.h"

#include "base/random.h"
#include "faults/blocks.h"
#include "faults/made_fault.h"

#include <gtest/gtest.h>

#include <string>

namespace selvage::faults {
namespace {

constexpr double slip_sd = 2.0;  // m

Events in_order(std::vector<Fault> faults) {
    Events events;
    for (const Fault& one : faults) events.names.push_back(one.name);
    events.order = events.names;
    events.faults = std::move(faults);
    return events;
}

// An older fault ends at the younger one and goes on beyond it, moved, and known so much the less.
TEST(FaultPieces, AnOlderFaultIsInPieces) {
    const Events events = in_order({made_fault("Old", {0, 0, 0}, {1, 0, 0}, {0, 5, 0}, slip_sd),
                                    made_fault("Young", {0, 0, 0}, {0, 1, 0}, {30, 0, 0}, slip_sd)});
    const std::vector<FaultPiece> pieces = pieces_of(events, events.faults[0]);
    ASSERT_EQ(pieces.size(), 2u);
    EXPECT_NEAR(base::signed_distance(pieces[0].plane, {0, -50, 0}), 0.0, 1e-9);
    EXPECT_NEAR(base::signed_distance(pieces[1].plane, {30, 50, 0}), 0.0, 1e-9);
    EXPECT_TRUE(holds(pieces[0], {0, -50, 0}));
    EXPECT_FALSE(holds(pieces[0], {0, 50, 0}));
    EXPECT_TRUE(holds(pieces[1], {30, 50, 0}));
    for (const FaultPiece& piece : pieces) EXPECT_EQ(piece.bounds.size(), 1u);
    EXPECT_EQ(offset_sd(events.faults[0], pieces[0].moved, {0, -50, 0}), 0.0);
    EXPECT_EQ(offset_sd(events.faults[0], pieces[1].moved, {30, 50, 0}), 2.0) << "the slip's";
    EXPECT_EQ(pieces_of(events, events.faults[1]).size(), 1u);
}

// A point of the oldest fault, moved by one younger fault after the other, lies on one piece of it, where the blocks' own way of
// undoing the faults finds that fault beside it.
TEST(FaultPieces, LieWhereTheFaultsTookThem) {
    base::RandomStream stream("fault pieces", {7});
    const auto vector = [&](double size) -> Eigen::Vector3d {
        return size * Eigen::Vector3d(stream.normal(), stream.normal(), stream.normal());
    };
    std::vector<Fault> faults;
    for (int i = 0; i < 12; ++i)
        faults.push_back(made_fault("F" + std::to_string(i), vector(100.0), vector(1.0), vector(15.0), slip_sd));
    const Events events = in_order(faults);
    const std::vector<FaultPiece> pieces = pieces_of(events, faults[0]);
    const Blocks blocks({faults.begin() + 1, faults.end()});
    for (int i = 0; i < 200; ++i) {
        const Eigen::Vector3d off = vector(120.0);
        Eigen::Vector3d today = faults[0].plane.point + off - faults[0].plane.normal * faults[0].plane.normal.dot(off);
        for (std::size_t f = 1; f < faults.size(); ++f)
            if (base::signed_distance(faults[f].plane, today) >= 0.0) today += faults[f].slip;
        int on = 0;
        for (const FaultPiece& piece : pieces)
            if (holds(piece, today) && std::abs(base::signed_distance(piece.plane, today)) < 1e-6) {
                ++on;
                EXPECT_LT((blocks.shift(blocks.at(today)) - piece.moved.by).norm(), 1e-9);
            }
        EXPECT_EQ(on, 1);
    }
}

}  // namespace
}  // namespace selvage::faults
