#include "sheets/key_plan.h"

#include "sheets/made_up_pack.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <variant>

namespace selvage::sheets {
namespace {

const drawing::Box picture{10.0, 10.0, 10.0 + key_plan_width, 58.0};

KeyMap far_apart_holes() {
    KeyMap map;
    map.holes.push_back({{{0.0, 0.0}, {30.0, 40.0}}, tables::HoleStatus::done});
    map.holes.push_back({{{-420.0, 65.0}, {-400.0, 90.0}}, tables::HoleStatus::done});
    map.holes.push_back({{{15.0, -95.0}, {40.0, -60.0}}, tables::HoleStatus::planned});
    return map;
}

KeyLine line_between(const Eigen::Vector3d& left, const Eigen::Vector3d& right) {
    const Eigen::Vector3d along = (right - left).normalized();
    return {left, right, Eigen::Vector3d(-along.y(), along.x(), 0.0), "SW", "NE"};
}

Marks drawn(const KeyMap& map, const std::optional<KeyLine>& line, double* metres_per_mm = nullptr) {
    const KeyPlan plan = key_plan(map, {}, line, picture.width(), picture.height(), made_up_pack().tools());
    if (metres_per_mm != nullptr) *metres_per_mm = plan.metres_per_mm;
    return plan.draw(picture);
}

const drawing::Text* text_of(const Marks& marks, const std::string& words) {
    for (const Mark& mark : marks)
        if (const auto* text = std::get_if<drawing::Text>(&mark); text != nullptr && text->text == words) return text;
    return nullptr;
}

// The sheet's own line: the widest that is drawn, as long on paper as it is on the ground.
std::pair<Point, Point> line_on_paper(const Marks& marks, double length_mm) {
    for (const Mark& mark : marks)
        if (const auto* shape = std::get_if<drawing::Shape>(&mark); shape != nullptr && shape->rings.size() == 1)
            if (const auto& points = shape->rings.front(); points.size() == 2)
                if (std::abs(std::hypot(points[1].x - points[0].x, points[1].y - points[0].y) - length_mm) < 1e-6)
                    return {points[0], points[1]};
    return {{-1e9, -1e9}, {-1e9, -1e9}};
}

bool within(const Box& box, const Point& at) {
    return at.x >= box.left && at.x <= box.right && at.y >= box.bottom && at.y <= box.top;
}

TEST(KeyPlan, HoldsTheWholeLineOfItsSheetWithLettersPastItsEnds) {
    for (const auto& [left, right] : {std::pair{Eigen::Vector3d(-700.0, -20.0, 0.0), Eigen::Vector3d(500.0, 10.0, 0.0)},
                                      std::pair{Eigen::Vector3d(-60.0, -330.0, 0.0), Eigen::Vector3d(40.0, 400.0, 0.0)},
                                      std::pair{Eigen::Vector3d(900.0, 700.0, 0.0), Eigen::Vector3d(1200.0, 1000.0, 0.0)}}) {
        double metres_per_mm = 0.0;
        const Marks marks = drawn(far_apart_holes(), line_between(left, right), &metres_per_mm);
        const auto [a, b] = line_on_paper(marks, (right - left).norm() / metres_per_mm);
        EXPECT_TRUE(within(picture, a) && within(picture, b));
        for (const auto& [letters, end] : {std::pair{"SW", a}, std::pair{"NE", b}}) {
            const drawing::Text* text = text_of(marks, letters);
            ASSERT_NE(text, nullptr) << letters;
            EXPECT_LT(std::hypot(text->at.x - end.x, text->at.y - end.y), 5.0) << letters;
            const Box box = box_of_words(*text, made_up_pack().fonts.metrics);
            EXPECT_TRUE(within(picture, {box.left, box.bottom}) && within(picture, {box.right, box.top})) << letters;
        }
    }
}

TEST(KeyPlan, HoldsEveryHoleWhole) {
    const Marks marks = drawn(far_apart_holes(), line_between({-50.0, -50.0, 0.0}, {50.0, 50.0, 0.0}));
    std::size_t shapes = 0;
    for (const Mark& mark : marks)
        if (const auto* shape = std::get_if<drawing::Shape>(&mark))
            for (const std::vector<Point>& ring : shape->rings)
                for (const Point& point : ring) {
                    ++shapes;
                    EXPECT_TRUE(
                        within(drawing::Box{picture.left - 1e-6, picture.bottom - 1e-6, picture.right + 1e-6, picture.top + 1e-6},
                               point));
                }
    EXPECT_GT(shapes, 10u);
}

TEST(KeyPlan, HasItsNorthItsBarScaleAndTheMeaningOfItsSigns) {
    double metres_per_mm = 0.0;
    const Marks marks = drawn(far_apart_holes(), line_between({-50.0, -50.0, 0.0}, {50.0, 50.0, 0.0}), &metres_per_mm);
    EXPECT_DOUBLE_EQ(metres_per_mm, 10.0);  // 460 m of holes and 68 mm: 1:10 000 is the largest of 1, 2, 2.5, 5 that holds them
    for (const char* words : {"N", "200 m", "hole", "planned", "view"}) EXPECT_NE(text_of(marks, words), nullptr) << words;
    const Marks plan_itself = drawn(far_apart_holes(), std::nullopt);
    EXPECT_EQ(text_of(plan_itself, "view"), nullptr);
}

// ISO 5455: 1, 2, 5 times powers of ten; of those between, 250, 2500 and their tens alone.
TEST(KeyPlan, HasItsScaleFromTheAllowedLadder) {
    for (double length = 40.0; length < 20000.0; length *= 1.15) {
        double metres_per_mm = 0.0;
        drawn(far_apart_holes(), line_between({0.0, 0.0, 0.0}, {length, 0.3 * length, 0.0}), &metres_per_mm);
        const double scale = metres_per_mm * 1000.0;
        const double first = scale / std::pow(10.0, std::floor(std::log10(scale) + 1e-9));
        EXPECT_TRUE(std::abs(first - 1.0) < 1e-6 || std::abs(first - 2.0) < 1e-6 || std::abs(first - 5.0) < 1e-6 ||
                    std::abs(first - 2.5) < 1e-6)
            << scale;
    }
}

}  // namespace
}  // namespace selvage::sheets
