#include "studies/studies.h"
#include "studies/expect_windows.h"

#include <gtest/gtest.h>

// The long studies: every prediction with an error that holds, on made-up worlds whose truth is known.
// (Step-outs are among the simulations; a fault that nobody knows of has no window.)
namespace selvage::studies {
namespace {

TEST(Studies, HeightsHoldFromFourHolesToFortyWithAndWithoutOrientedCore) { expect_windows(surface_ranges()); }
TEST(Studies, HeightsAreBetterForetoldThanByPlugInMaximumLikelihood) { expect_windows(against_plug_in()); }
TEST(Studies, FirstHolesFromOutcropsOrAStatedPlaneHold) { expect_windows(first_holes()); }
TEST(Studies, PierceDepthsThroughTheTablesHold) { expect_windows(pierce_depths()); }
TEST(Studies, PierceDepthsHoldWhereAzimuthsShareAnError) { expect_windows(shared_errors()); }
TEST(Studies, VeinsNotSeenYetLieAheadAsOftenAsSaid) { expect_windows(not_seen_yet()); }
TEST(Studies, ThicknessAndGradeTimesThicknessHold) { expect_windows(thickness_and_grade()); }
TEST(Studies, VeinsAreThereAsOftenAsSaid) { expect_windows(presence()); }

}  // namespace
}  // namespace selvage::studies
