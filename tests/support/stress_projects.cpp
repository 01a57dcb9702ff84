#include "support/stress_projects.h"

#include "base/text.h"

#include <cmath>
#include <functional>

namespace selvage::made_up {

namespace {

constexpr double degree = 3.14159265358979323846 / 180.0;

// What differs from project to project. Veins are parallel planes that dip 70 degrees to the east, struck by holes that run
// west, 50 degrees down.
struct Shape {
    double east0 = 1000.0, north0 = 5000.0, up0 = 1000.0;  // the first vein at the surface, m
    int rows = 4, holes_in_row = 3;                        // rows along strike; holes of a row hit deeper and deeper
    double row_spacing = 35.0, hole_spacing = 30.0;        // m
    double thickness = 1.0;                                // m down the hole
    double tail = 15.0;                                    // m past the last vein
    std::vector<std::string> veins = {"Ousel"};
    double vein_spacing = 25.0;  // m across strike, level
    std::function<std::string(int)> hole_name = [](int n) { return "A-" + std::to_string(n + 1); };
    std::string project = "Stress (invented)", rock = "andesite", owner;
    bool assayed = true;
    int planned = 1;  // holes
};

class Writer {
public:
    Writer(std::string name, Shape shape) : shape_(std::move(shape)) { out_.name = std::move(name); }

    StressProject write() {
        int number = 0;
        for (int row = 0; row < shape_.rows; ++row)
            for (int i = 0; i < shape_.holes_in_row; ++i) drill(number++, row, i, "done");
        for (int i = 0; i < shape_.planned; ++i)
            drill(number++, (shape_.rows / 2 + i) % shape_.rows, shape_.holes_in_row, "planned");
        add_files();
        return out_;
    }

private:
    static std::string figure(double value) { return base::fixed(value, 2); }

    // The depth at which a hole meets a plane so far west of the first vein.
    double depth_of(double collar_east, double west) const {
        const double down = 50.0 * degree, dip = 70.0 * degree;
        return (collar_east - shape_.east0 + west) * std::sin(dip) /
               (std::sin(dip) * std::cos(down) + std::cos(dip) * std::sin(down));
    }

    void drill(int number, int row, int in_row, const char* status) {
        const std::string hole = shape_.hole_name(number);
        const double east = shape_.east0 + shape_.hole_spacing * (in_row + 1), north = shape_.north0 + shape_.row_spacing * row;
        const double last = shape_.vein_spacing * (static_cast<double>(shape_.veins.size()) - 1.0);
        const double length = depth_of(east, last) + shape_.tail;
        out_.holes.push_back(hole);
        collars_ += hole + "," + figure(east) + "," + figure(north) + "," + figure(shape_.up0) + "," + figure(length) +
                    ",270,50," + status + "\n";
        if (std::string(status) != "done") return;
        for (double depth = 0.0; depth < length; depth += std::max(30.0, length / 12.0))
            surveys_ += hole + "," + figure(depth) + ",270,50\n";
        geology_ += hole + ",0," + figure(length) + "," + shape_.rock + "\n";
        for (std::size_t vein = 0; vein < shape_.veins.size(); ++vein)
            hit(hole, number, vein, depth_of(east, shape_.vein_spacing * static_cast<double>(vein)));
    }

    void hit(const std::string& hole, int number, std::size_t vein, double depth) {
        // A little off the plane, each its own way, so that there is something to model.
        const double off = 0.4 * shape_.thickness * std::sin(1.7 * number + 2.0 * static_cast<double>(vein));
        const double from = depth + off - 0.5 * shape_.thickness, to = from + shape_.thickness * (1.0 + 0.3 * std::cos(number));
        picks_ += hole + "," + figure(from) + "," + figure(to) + "," + shape_.veins[vein] + "\n";
        if (shape_.assayed)
            assays_ += hole + "," + figure(from) + "," + figure(to) + ",S" + std::to_string(samples_++) + "," +
                       base::fixed(180.0 + 160.0 * std::sin(1.3 * number), 0) + "\n";
        out_.hits.emplace_back(hole, shape_.veins[vein]);
    }

    void add_files() {
        std::string project = "[project]\nname = \"" + shape_.project + "\"\ndate = 2026-03-06\n";
        if (!shape_.owner.empty()) project += "owner = \"" + shape_.owner + "\"\n";
        project +=
            "[tables]\ncollars = \"collars.csv\"\nsurveys = \"surveys.csv\"\npicks = \"picks.csv\"\ngeology = \"geology.csv\"\n";
        if (shape_.assayed) project += "assays = \"assays.csv\"\n";
        for (const std::string& vein : shape_.veins)
            project += "[[vein]]\nname = \"" + vein + "\"\ndip = 70\ndip_direction = 90\n";
        out_.files = {{"project.toml", project},
                      {"collars.csv", "hole,east,north,elevation,depth,azimuth,dip,status\n" + collars_},
                      {"surveys.csv", "hole,depth,azimuth,dip\n" + surveys_},
                      {"picks.csv", "hole,from,to,vein\n" + picks_},
                      {"geology.csv", "hole,from,to,rock\n" + geology_}};
        if (shape_.assayed) out_.files["assays.csv"] = "hole,from,to,sample,ag_gpt\n" + assays_;
    }

    Shape shape_;
    StressProject out_;
    std::string collars_, surveys_, picks_, geology_, assays_;
    int samples_ = 1;
};

StressProject written(const char* name, const std::function<void(Shape&)>& make) {
    Shape shape;
    make(shape);
    return Writer(name, shape).write();
}

// 60 letters, the number at the end.
std::string sixty_letters(const std::string& start, int number) {
    const std::string end = "-" + std::to_string(100 + number);
    std::string name = start;
    while (name.size() + end.size() < 60) name += start;
    return name.substr(0, 60 - end.size()) + end;
}

std::function<std::string(int)> one_of(const std::vector<std::string>& names) {
    return [names](int n) { return names[static_cast<std::size_t>(n) % names.size()] + "-" + std::to_string(n + 1); };
}

}  // namespace

std::vector<StressProject> stress_projects() {
    std::vector<StressProject> all;
    all.push_back(written("NamesOfSixtyLetters", [](Shape& s) {
        s.hole_name = [](int n) { return sixty_letters("Northeasternmost-Exploration-", n); };
        s.veins = {sixty_letters("Great Western Extension Lode ", 1), sixty_letters("Great Western Extension Lode ", 2)};
        s.rock = sixty_letters("altered porphyritic andesite ", 3);
        s.project = sixty_letters("Project of Many Letters Invented ", 4);
        s.planned = 4;
        s.owner = sixty_letters("Company of Many Letters Invented ", 5);
    }));
    all.push_back(written("SixtyLettersWithoutABreak", [](Shape& s) {
        s.hole_name = [](int n) { return std::string(57, 'W') + std::to_string(100 + n); };
        s.veins = {std::string(60, 'M')};
        s.rock = std::string(60, 'm');
        s.project = std::string(60, 'W');
    }));
    all.push_back(written("TwoHundredHitsOnOneSection", [](Shape& s) {
        s.rows = 1;
        s.holes_in_row = 40;
        s.hole_spacing = 12.0;
        s.veins = {"Ousel", "Merlin", "Dunlin", "Whinchat", "Siskin"};
    }));
    all.push_back(written("TenKilometres", [](Shape& s) {
        s.rows = 51;
        s.holes_in_row = 1;
        s.row_spacing = 200.0;
        s.hole_spacing = 150.0;
    }));
    all.push_back(written("FiveMetres", [](Shape& s) {
        s.rows = 5;
        s.holes_in_row = 2;
        s.row_spacing = 1.0;
        s.hole_spacing = 1.5;
        s.thickness = 0.2;
        s.tail = 1.0;
    }));
    all.push_back(written("SevenDigits", [](Shape& s) {
        s.east0 = 8765432.1;
        s.north0 = 9123456.7;
        s.up0 = 4321.0;
    }));
    all.push_back(written("OneHole", [](Shape& s) {
        s.rows = s.holes_in_row = 1;
        s.planned = 0;
    }));
    all.push_back(written("NoAssays", [](Shape& s) { s.assayed = false; }));
    all.push_back(written("GreekCyrillicAndAccents", [](Shape& s) {
        s.hole_name = one_of({"Άργυρος", "Жила", "Señá", "Çığ", "Łódź", "Ærø"});
        s.veins = {"Φλέβα Ψ", "Серебряная жила", "Größte Ader"};
        s.rock = "ανδεσίτης";
        s.project = "Žluťoučký důl, Ёлка (smyšlený)";
    }));
    all.push_back(written("LettersThatTheFontLacks", [](Shape& s) {
        s.hole_name = one_of({"東", "銀", "ด"});
        s.veins = {"銀脈"};
        s.rock = "安山岩";
        s.project = "日本 (invented) 🜛";
    }));
    all.back().unknown_letters = {"U+6771", "U+9280", "U+0E14", "U+8108", "U+5B89", "U+1F71B"};
    return all;
}

}  // namespace selvage::made_up
