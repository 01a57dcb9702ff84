#include "sheets/changed_results.h"
#include "sheets/clearance.h"
#include "sheets/label_text.h"
#include "sheets/made_up_pack.h"
#include "sheets/own_plane.h"
#include "sheets/page.h"
#include "sheets/section_content.h"
#include "sheets/section_set.h"
#include "sheets/vein_ahead.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <string>

namespace selvage::sheets {
namespace {

std::map<std::string, const drawing::Sheet*> section_sheets() {
    std::map<std::string, const drawing::Sheet*> sheets;
    for (const drawing::Sheet& sheet : made_up_pack().sheets)
        if (sheet.kind == "cross-section") sheets[sheet.name] = &sheet;
    return sheets;
}

std::size_t times_said(const drawing::Sheet& sheet, const std::string& words) {
    return static_cast<std::size_t>(std::count_if(sheet.items.begin(), sheet.items.end(), [&](const drawing::Item& item) {
        const auto* text = std::get_if<drawing::Text>(&item.mark);
        return text != nullptr && text->text.find(words) != std::string::npos;
    }));
}

TEST(SectionSet, EveryHitMissAndForecastLiesOnExactlyOneSection) {
    const Results results = made_up_pack().results();
    const SectionSet set = section_set(results);
    std::map<const void*, int> seen;
    for (const Section& section : set.sections) {
        const SectionContent content = section_content(results, set, section);
        for (const intercepts::Intercept* hit : content.hits) ++seen[hit];
        for (const SectionContent::Miss& miss : content.misses) ++seen[miss.none];
        for (const forecast::Pierce* pierce : content.pierces) ++seen[pierce];
    }
    for (const intercepts::Intercept& hit : results.intercepts.met) EXPECT_EQ(seen[&hit], 1) << hit.hole;
    for (const veins::Vein& vein : results.veins)
        for (const veins::NoVein& none : vein.no_vein())
            if (none.is_miss()) {
                EXPECT_EQ(seen[&none], 1) << none.hole;
            }
    for (const forecast::Pierce& pierce : results.pierces) EXPECT_EQ(seen[&pierce], 1) << pierce.hole;
}

// A hole's box of words names all that it should meet; what it meets in another slab, with that sheet.
TEST(CrossSection, NamesEveryVeinAheadOfAHole) {
    const Results results = made_up_pack().results();
    const SectionSet set = section_set(results);
    std::size_t elsewhere = 0;
    for (const auto& [name, sheet] : section_sheets())
        for (const VeinAhead& ahead : veins_ahead(results.pierces)) {
            const bool in_words = times_said(*sheet, ahead.hole + ", planned: what it should meet") +
                                      times_said(*sheet, ahead.hole + ", active: what it should meet") >
                                  0;
            if (!in_words || !is_within_reach(ahead)) continue;
            bool here = false;
            for (const forecast::Pierce* piece : ahead.pieces) here = here || sheet_of(set, piece->point) == name;
            if (here) continue;
            ++elsewhere;
            EXPECT_GT(times_said(*sheet, "at " + length_text(ahead.likeliest().depth, results.records.frame, 0) + ": sheet " +
                                             sheet_of(set, ahead.likeliest().point)),
                      0u)
                << name << " " << ahead.hole << " " << ahead.vein;
        }
    EXPECT_GT(elsewhere, 0u);
}

// Where an active hole has come to is not its end.
TEST(CrossSection, AnActiveHoleIsDrilledToItsPresentDepth) {
    const Results results = made_up_pack().results();
    std::size_t active = 0;
    for (const drawing::Sheet& sheet : made_up_pack().sheets) {
        if (sheet.kind != hole_section_kind) continue;
        for (const paths::Path& path : results.paths) {
            if (path.hole != sheet.name || path.status != tables::HoleStatus::active) continue;
            ++active;
            EXPECT_GT(times_said(sheet, path.hole + " drilled to " + length_text(path.drilled_depth, results.records.frame)), 0u);
            EXPECT_EQ(times_said(sheet, "drilled to here,"), 1u) << "in its legend";
        }
    }
    EXPECT_GT(active, 0u);
}

// Its cross stands at its point: another at its label would read as a second miss.
TEST(CrossSection, AMissIsCrossedOnce) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    const SectionSet set = section_set(results);
    const auto sheets = section_sheets();
    const double width = pack.style.line("symbol_cross").width_mm;
    std::size_t crosses = 0, misses = 0;
    for (const Section& section : set.sections) {
        const auto sheet = sheets.find(section.name);
        if (sheet == sheets.end()) continue;
        misses += section_content(results, set, section).misses.size();
        for (const drawing::Item& item : sheet->second->items) {
            const auto* shape = std::get_if<drawing::Shape>(&item.mark);
            if (shape == nullptr || item.window != 1 || !shape->line || shape->fill || shape->rings.size() != 2) continue;
            const std::vector<drawing::Point>& stroke = shape->rings.front();
            crosses += stroke.size() == 2 && std::abs(shape->line->width_mm - width) < 1e-9 ? 1 : 0;
        }
    }
    ASSERT_GT(misses, 4u);
    EXPECT_EQ(crosses, misses);
}

// Whether it comes off it or not.
TEST(CrossSection, ShowsAHolesTargetInItsOwnPlane) {
    const Results results = made_up_pack().results();
    std::size_t planned = 0;
    for (const drawing::Sheet& sheet : made_up_pack().sheets) {
        if (sheet.kind != hole_section_kind) continue;
        for (const tables::Collar& collar : results.records.collars) {
            if (collar.hole != sheet.name || !collar.target || !collar.target->point) continue;
            planned += collar.status == tables::HoleStatus::planned ? 1 : 0;
            EXPECT_EQ(times_said(sheet, "target of " + collar.hole), 1u) << collar.hole;
        }
    }
    EXPECT_GT(planned, 0u);
}

// What a card tells of is looked for on the section along its hole.
TEST(CrossSection, DrawsTheHolesThatTheCardNames) {
    const Results results = made_up_pack().results();
    const SectionSet pack = section_set(results);
    std::size_t nearest = 0;
    for (const paths::Path& path : results.paths) {
        if (path.status != tables::HoleStatus::planned && path.status != tables::HoleStatus::active) continue;
        const planning::NearHoles near = near_ahead(path, results);
        const SectionSet own = own_plane(path, path.end_depth, pack);
        for (const SectionHole& hole : section_content(results, own, own.sections.front()).holes) {
            const std::string& name = results.paths[hole.path].hole;
            const auto is_it = [&name](const planning::NearHole& one) { return one.hole == name; };
            const bool is_nearest = near.nearest && is_it(*near.nearest);
            nearest += is_nearest ? 1 : 0;
            if (is_nearest || std::any_of(near.under.begin(), near.under.end(), is_it) ||
                std::any_of(near.beside.begin(), near.beside.end(), is_it)) {
                EXPECT_TRUE(hole.shown) << path.hole << " " << name;
            }
        }
    }
    EXPECT_GT(nearest, 0u);
}

TEST(SectionSet, SlabsMeetWithoutGapOrOverlap) {
    const SectionSet set = section_set(made_up_pack().results());
    const double step = set.spacing / 2.0;
    for (int i = -9; i <= 9; i += 2) {
        const Eigen::Vector3d face = set.base.origin + i * step * set.base.away;
        EXPECT_EQ(slab_number(set, face + 1e-6 * set.base.away) - slab_number(set, face - 1e-6 * set.base.away), 1);
    }
}

TEST(SectionSet, NamesTheSectionsThatThereAre) {
    SectionSet set;
    EXPECT_EQ(section_names(set), "");
    for (const int number : {1, 2, 3, 4, 6, 8, 9}) set.sections.push_back({number, section_name(set, number), {}, 12.5});
    EXPECT_EQ(section_names(set), "S1–S4, S6, S8, S9");
}

// More than forty sections only where each is full all the same.
TEST(SectionSet, ManyFullSectionsStayApartAndManyThinOnesAreJoined) {
    ChangedResults changed;
    const SectionSet usual = section_set(changed.results());
    const intercepts::Intercept hit = changed.intercepts.met.front();
    const auto sections_with = [&](int hits_each) {
        changed.intercepts.met.clear();
        for (int number = 0; number < 60; ++number)
            for (int i = 0; i < hits_each; ++i) {
                changed.intercepts.met.push_back(hit);
                changed.intercepts.met.back().point = usual.base.origin + number * usual.spacing * usual.base.away;
            }
        return section_set(changed.results()).sections.size();
    };
    EXPECT_GE(sections_with(10), 60U);
    EXPECT_LE(sections_with(2), 40U);
}

TEST(SectionSet, KeepsToItsPins) {
    settings::Project project = made_up_pack().run_results.project;
    project.sections.azimuth = base::Azimuth::degrees(90.0);
    project.sections.spacing = 20.0;
    project.sections.origin = made_up_pack().run_results.records.frame.origin.head<2>();
    const Results all = made_up_pack().results();
    const Results pinned{project,   all.records, all.paths,     all.orientations, all.events, all.intercepts,
                         all.veins, all.pierces, all.step_outs, all.site,         all.solids};
    const SectionSet set = section_set(pinned);
    EXPECT_EQ(set.spacing, 20.0);
    EXPECT_EQ(set.base.right_azimuth.degrees(), 90.0);
    EXPECT_LT(set.base.origin.head<2>().norm(), 1e-6);
    // The section through the pinned origin has the same name whatever data there are.
    EXPECT_EQ(section_name(set, 0), "S0");
    EXPECT_EQ(section_name(set, 6), "S6");
}

TEST(SectionSet, EveryHoleIsShownOnASection) {
    const Results results = made_up_pack().results();
    const SectionSet set = section_set(results);
    std::set<std::string> shown;
    for (const Section& section : set.sections)
        for (const SectionHole& hole : section_content(results, set, section).holes)
            if (hole.shown) shown.insert(results.paths[hole.path].hole);
    for (const paths::Path& path : results.paths) {
        const bool ahead = path.status == tables::HoleStatus::planned || path.status == tables::HoleStatus::cancelled;
        if (!ahead && tables::is_drill_hole(path.type)) {
            EXPECT_EQ(shown.count(path.hole), 1u) << path.hole;
        }
    }
}

TEST(CrossSection, SaysEveryHitOfItsSlabOnceAtLeast) {
    const Results results = made_up_pack().results();
    const SectionSet set = section_set(results);
    const auto sheets = section_sheets();
    for (const Section& section : set.sections) {
        ASSERT_EQ(sheets.count(section.name), 1u) << section.name;
        for (const intercepts::Intercept* hit : section_content(results, set, section).hits)
            EXPECT_GE(times_said(*sheets.at(section.name), hit->hole), 1u) << section.name << " " << hit->hole;
    }
}

// Any two grid lines stand apart by true distance over scale, within a tenth of a millimetre.
TEST(CrossSection, GridLinesStandApartByTrueDistance) {
    for (const auto& [name, sheet] : section_sheets()) {
        const PageBoxes boxes = page_boxes(sheet->width_mm, sheet->height_mm, drawing::PageLayout::drawing);
        std::map<double, double> across;  // figure under the axis: its place
        for (const drawing::Item& item : sheet->items) {
            const auto* text = std::get_if<drawing::Text>(&item.mark);
            if (text == nullptr || item.layer != static_cast<std::size_t>(Layer::grid) ||
                text->anchor != drawing::Anchor::centre || text->upright)
                continue;
            try {
                across[std::stod(text->text)] = text->at.x;
            } catch (const std::invalid_argument&) {  // the axis' title
            }
        }
        ASSERT_GE(across.size(), 2u) << name;
        const double units_per_mm = sheet->windows.front().units_per_mm;
        const auto first = *across.begin(), last = *across.rbegin();
        EXPECT_NEAR(last.second - first.second, (last.first - first.first) / units_per_mm, 0.1) << name;
        EXPECT_GT(boxes.window.width(), last.second - first.second);
    }
}

TEST(CrossSection, SaysWhatItIsAndItsCautions) {
    for (const auto& [name, sheet] : section_sheets()) {
        EXPECT_EQ(times_said(*sheet, "Section " + name + ", looking"), 1u);
        EXPECT_EQ(times_said(*sheet, "no vertical exaggeration"), 1u);
        EXPECT_EQ(times_said(*sheet, "Working document, not for release."), 1u);
        EXPECT_EQ(times_said(*sheet, "SCALE 1:"), 2u) << "in the foot and in the title block";
        EXPECT_EQ(times_said(*sheet, "first pack: nothing to compare with"), 1u);
    }
}

// The placer's own figures: nothing overlaps, no leader crosses another.
TEST(CrossSection, LabelsNeitherOverlapNorCross) {
    for (const auto& [name, sheet] : section_sheets()) {
        EXPECT_EQ(sheet->labels.overlaps, 0u) << name;
        EXPECT_EQ(sheet->labels.crossings, 0u) << name;
        EXPECT_LT(sheet->labels.leader_longest_mm, 60.0) << name;
    }
}

TEST(FittingScale, IsTheLargestOfTheLadderThatFits) {
    const drawing::Box window{0.0, 0.0, 296.0, 249.5};
    EXPECT_EQ(fitting_scale(148.0, 100.0, window, {}), 500.0);
    EXPECT_EQ(fitting_scale(148.1, 100.0, window, {}), 1000.0);
    EXPECT_EQ(fitting_scale(100.0, 300.0, window, {}), 2000.0);
    EXPECT_EQ(fitting_scale(100.0, 500.0, window, {}), 2500.0);
    EXPECT_EQ(fitting_scale(100.0, 100.0, window, {true, 1.0}), 480.0);
}

}  // namespace
}  // namespace selvage::sheets
