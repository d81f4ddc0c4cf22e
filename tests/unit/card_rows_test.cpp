// Rows of the card: words, in the order of the day, and nothing lost between the plan and the paper.
#include "card/card_rows.hpp"

#include "card_plans.hpp"

#include <catch2/catch.hpp>

#include <map>
#include <random>
#include <sstream>

using namespace tuck;
using namespace tuck::faces;

namespace {

Plan plan_with(const std::vector<Line>& lines) {
    Plan plan;
    plan.lines = lines;
    return plan;
}

std::vector<std::string> rows(const Plan& plan, int leg, RowForm form = RowForm::short_words) {
    std::vector<std::string> out;
    for (const CardRow& row : leg_rows(plan, leg, form).rows)
        out.push_back((row.window.empty() ? row.when : row.when + " " + row.window) + " | " + row.what +
                      (row.from.empty() ? "" : " | " + row.from));
    return out;
}

using Rows = std::vector<std::string>;

/// What is taken when: moments in minutes or metres, food by its label, its amount and source.
using Taken = std::multimap<long, std::string>;

std::vector<std::string> words_of(const std::string& text) {
    std::istringstream in(text);
    std::vector<std::string> words;
    for (std::string word; in >> word;)
        words.push_back(word);
    return words;
}

/// A leg for the test: a beat and a length, or stations.
struct Road {
    LegKind kind = LegKind::bike;
    long beat_min = 15;
    long last_min = 180;          // of the bike: no beat after it
    std::vector<long> stations_m; // of the run
};

long number_at(const std::string& word) {
    const auto colon = word.find(':');
    return colon == std::string::npos ? std::lround(std::stod(word) * 1000)
                                      : std::stol(word) * 60 + std::stol(word.substr(colon + 1));
}

/// The moments of a row, as an athlete would count them off.
std::vector<long> moments_read(const std::string& when, const Road& leg) {
    const auto words = words_of(when);
    std::vector<long> out;
    if (words[0] != "every" && words[0] != "each") {
        for (const auto& word : words)
            if (word != "km")
                out.push_back(number_at(word));
        return out;
    }
    long from = -1, to = -1;
    for (std::size_t i = 0; i + 1 < words.size(); ++i) {
        const auto& next = words[i + 1] == "km" ? words[i + 2] : words[i + 1];
        if (words[i] == "from")
            from = number_at(next);
        if (words[i] == "to")
            to = number_at(next);
    }
    const bool ordinal =
        std::string("ndrdth").find(words[1].substr(words[1].size() - 2)) != std::string::npos;
    if (when.find("station") != std::string::npos || ordinal) {
        const std::size_t step = words[0] == "each" ? 1 : static_cast<std::size_t>(std::stol(words[1]));
        std::size_t i = from < 0 ? step - 1 : 0;
        while (from >= 0 && i < leg.stations_m.size() && leg.stations_m[i] < from)
            ++i;
        for (; i < leg.stations_m.size() && (to < 0 || leg.stations_m[i] <= to); i += step)
            out.push_back(leg.stations_m[i]);
        return out;
    }
    const long every = std::stol(words[1]);
    for (long at = from < 0 ? every : from; at <= (to < 0 ? leg.last_min : to); at += every)
        out.push_back(at);
    return out;
}

/// Draws lines as a schedule may hold them, with what they expand to.
class Draw {
public:
    explicit Draw(unsigned seed) : random_(seed) {}

    long between(long low, long high) { return std::uniform_int_distribution<long>(low, high)(random_); }

    Road leg() {
        Road leg;
        leg.beat_min = 5 * between(2, 4);
        leg.last_min = leg.beat_min * between(2, 36);
        if (between(0, 1)) {
            leg.kind = LegKind::run;
            for (long at = 100 * between(4, 30), step = 100 * between(8, 30); at < 42000; at += step)
                leg.stations_m.push_back(at);
        }
        return leg;
    }

    Line line(const Road& leg) {
        Line line;
        line.leg = leg.kind;
        line.by_km = leg.kind == LegKind::run;
        const auto count =
            static_cast<long>(line.by_km ? leg.stations_m.size() : leg.last_min / leg.beat_min);
        const long step = between(1, std::min(4L, count)), kind = between(0, 2);
        long first = step - 1, last = count - 1;
        last -= (last - first) % step;
        if (kind == 1 && count > step) {
            line.window.from.emplace();
            first = between(0, count - 1);
            last = count - 1 - (count - 1 - first) % step;
        }
        if (between(0, 1) && last - first >= step) {
            line.window.to.emplace();
            last -= step * between(0, (last - first) / step);
        }
        for (long i = first; i <= last; i += step)
            line.at.push_back(moment(leg, i));
        if (kind == 2) {
            line.window = {};
        } else {
            line.rhythm.kind = line.by_km ? Rhythm::Kind::stations : Rhythm::Kind::every;
            line.rhythm.step = static_cast<int>(step);
            line.rhythm.every_s = static_cast<double>(step * leg.beat_min * 60);
            if (line.window.from)
                line.window.from = line.at.front();
            if (line.window.to)
                line.window.to = line.at.back();
        }
        add_items(line);
        return line;
    }

private:
    static LegMoment moment(const Road& leg, long i) {
        if (leg.kind == LegKind::run) {
            const auto m = static_cast<double>(leg.stations_m[static_cast<std::size_t>(i)]);
            return {m / 1000 * 300, m / 1000};
        }
        return {static_cast<double>((i + 1) * leg.beat_min * 60), 0};
    }

    void add_items(Line& line) {
        constexpr const char* labels[] = {"gel",   "bar",           "PB + jam", "rice cup",
                                          "5xbar", "date then fig", "B1 bar"};
        if (between(0, 2)) {
            const std::string label = labels[between(0, 6)];
            line.items.push_back({label, label, between(0, 1) ? 1.0 : 0.5, label, {{"pocket", 0}}});
        }
        if (!line.items.empty() && between(0, 1))
            return;
        const bool own = line.leg == LegKind::bike;
        LineItem drink{"drink",
                       own ? "iso drink" : "water",
                       static_cast<double>(between(1, 5)),
                       own ? "swallow" : "cup",
                       {{own ? "B1" : "station", 0}}};
        line.items.push_back(drink);
    }

    std::mt19937 random_;
};

/// The words of one item, from the plan alone.
std::string meant(const Line& line, const LineItem& item) {
    const std::string amount = item.amount == 0.5 ? "½" : std::to_string(std::lround(item.amount));
    return amount + "|" + (item.drink() && line.leg == LegKind::bike ? item.from[0].name : item.label);
}

/// The same, read from a row.
std::vector<std::string> items_read(const std::string& what, const std::vector<std::string>& labels) {
    std::vector<std::string> out;
    std::string rest = what;
    while (!rest.empty()) {
        std::string amount = "1";
        if (rest.rfind("½ ", 0) == 0) {
            amount = "½";
            rest = rest.substr(3);
        } else if (std::isdigit(static_cast<unsigned char>(rest[0])) && rest[1] == ' ') {
            amount = rest.substr(0, 1);
            rest = rest.substr(2);
            for (const char* unit : {"sw ", "swallows ", "swallow ", "cups ", "cup "})
                if (rest.rfind(unit, 0) == 0)
                    rest = rest.substr(std::string(unit).size());
        }
        std::string best;
        for (const auto& label : labels)
            if (rest.rfind(label, 0) == 0 && label.size() > best.size())
                best = label;
        if (best.empty())
            return {"unread: " + what};
        out.push_back(amount + "|" + best);
        rest = rest.substr(best.size());
        if (rest.rfind(" + ", 0) == 0)
            rest = rest.substr(3);
        else if (!rest.empty())
            return {"unread: " + what};
    }
    return out;
}

/// "4 sw" of the one bottle that the key names.
std::string with_bottle(const CardRow& row, const std::string& in_key) {
    const bool swallows = row.what.size() > 3 && row.what.substr(row.what.size() - 3) == " sw";
    const std::string bottle = row.from.empty() && swallows ? in_key : row.from;
    return bottle.empty() ? row.what : row.what + " " + bottle;
}

} // namespace

TEST_CASE("A row says when and what in words", "[card]") {
    const Plan plan = plan_with({example::line(2, LegKind::bike, "every 15'", "4 swallows B1"),
                                 example::line(2, LegKind::bike, "every 30' from 0:30 to 2:00", "1/2 bar"),
                                 example::line(2, LegKind::bike, "2:30", "gel"),
                                 example::line(4, LegKind::run, "each station", "1 cup water"),
                                 example::line(4, LegKind::run, "km 4 10 16", "gel")});
    CHECK(rows(plan, 2) ==
          Rows{"every 15' | 4 sw | B1", "every 30' from 0:30 to 2:00 | ½ bar", "2:30 | gel"});
    CHECK(rows(plan, 2, RowForm::words)[0] == "every 15' | 4 swallows | B1");
    CHECK(rows(plan, 4) == Rows{"each station | 1 cup water", "km 4 10 16 | gel"});
}

TEST_CASE("The only short word has its key with the rows that use it", "[card]") {
    const Plan plan = plan_with({example::line(2, LegKind::bike, "every 15'", "4 swallows B1"),
                                 example::line(4, LegKind::run, "each station", "1 cup water")});
    CHECK(leg_rows(plan, 2, RowForm::short_words).key == "sw = swallow");
    CHECK(leg_rows(plan, 2, RowForm::words).key.empty());
    CHECK(leg_rows(plan, 4, RowForm::short_words).key.empty());
}

TEST_CASE("The shortest form names the one bottle of all swallows in the key", "[card]") {
    const auto drink = example::line(2, LegKind::bike, "every 15' to 1:30", "4 swallows B1");
    const auto one =
        leg_rows(plan_with({drink, example::line(2, LegKind::bike, "2:30", "gel")}), 2, RowForm::shortest);
    CHECK(one.key == "sw = swallow of B1");
    CHECK(one.rows.at(0).what == "4 sw");
    CHECK(one.rows.at(0).from.empty());
    const auto two = leg_rows(plan_with({drink, example::line(2, LegKind::bike, "1:45", "2 swallows B2")}), 2,
                              RowForm::shortest);
    CHECK(two.key == "sw = swallow");
    CHECK(two.rows.at(0).from == "B1");
}

TEST_CASE("Every so many stations are short below a row that names them", "[card]") {
    const auto each = example::line(4, LegKind::run, "each station", "1 cup water"),
               third = example::line(4, LegKind::run, "every 3rd station", "gel");
    const auto below = leg_rows(plan_with({each, third}), 4, RowForm::short_words);
    CHECK(below.rows.at(0).when == "each station");
    CHECK(below.rows.at(1).when == "every 3rd");
    CHECK(below.key == "3rd = 3rd station");
    const auto alone = leg_rows(plan_with({third}), 4, RowForm::short_words);
    CHECK(alone.rows.at(0).when == "every 3rd aid");
    CHECK(alone.key == "aid = station");
    CHECK(leg_rows(plan_with({each, third}), 4, RowForm::words).rows.at(1).when == "every 3rd station");
}

TEST_CASE("The bottles of a drink stand in their order", "[card]") {
    const Plan plan =
        plan_with({example::line(2, LegKind::bike, "every 15'", "4 swallows B1 then B2 then B3")});
    CHECK(rows(plan, 2) == Rows{"every 15' | 4 sw | B1, then B2, then B3"});
}

TEST_CASE("A drink that goes on from another source is one row", "[card]") {
    const Plan plan =
        plan_with({example::line(2, LegKind::bike, "every 15' to 3:15", "3 swallows B1 then B2"),
                   example::line(2, LegKind::bike, "every 15' from 3:30", "3 swallows iso drink"),
                   example::line(2, LegKind::bike, "every 45' from 0:15", "gel")});
    CHECK(rows(plan, 2) ==
          Rows{"every 15' | 3 sw | B1, B2, from 3:30 iso drink", "every 45' from 0:15 | gel"});
    const Plan few = plan_with({example::line(2, LegKind::bike, "every 15' to 2:15", "5 swallows B1"),
                                example::line(2, LegKind::bike, "2:30 2:45 3:00", "5 swallows iso drink")});
    CHECK(rows(few, 2) == Rows{"every 15' to 3:00 | 5 sw | B1, from 2:30 iso drink"});
    // Another amount is another row.
    const Plan less =
        plan_with({example::line(2, LegKind::bike, "every 15' to 3:15", "3 swallows B1"),
                   example::line(2, LegKind::bike, "every 15' from 3:30", "2 swallows iso drink")});
    CHECK(rows(less, 2).size() == 2);
}

TEST_CASE("The dial of a row shows where the minute hand stands at its beats", "[card]") {
    const auto dial = [](const char* when) {
        return leg_rows(plan_with({example::line(2, LegKind::bike, when, "gel")}), 2).rows[0].minutes;
    };
    CHECK(dial("every 15'") == std::vector{0, 15, 30, 45});
    CHECK(dial("every 20'") == std::vector{0, 20, 40});
    CHECK(dial("every 30' from 0:15 to 2:15") == std::vector{15, 45});
    CHECK(dial("every 60' from 1:20") == std::vector{20});
    CHECK(dial("every 45'").empty()); // other minutes in every hour
    CHECK(dial("0:20 0:50").empty());
}

TEST_CASE("A rhythm from the first beat on stands first, all else where it begins", "[card]") {
    const Plan plan = plan_with({example::line(2, LegKind::bike, "every 20' from 1:40 to 2:40", "1/2 bar"),
                                 example::line(2, LegKind::bike, "0:30 0:50", "gel"),
                                 example::line(2, LegKind::bike, "every 10'", "2 swallows B1")});
    CHECK(rows(plan, 2) ==
          Rows{"every 10' | 2 sw | B1", "0:30 0:50 | gel", "every 20' from 1:40 to 2:40 | ½ bar"});
}

TEST_CASE("A label is one thing, whatever stands in it", "[card]") {
    // An own food called so was once printed as two things to eat.
    for (const char* label : {"PB + jam", "rice cup", "5xbar", "fig then date"}) {
        Line line = example::line(2, LegKind::bike, "every 20'", "bar");
        line.items[0].label = label;
        const auto read = rows(plan_with({line}), 2);
        REQUIRE(read.size() == 1);
        CHECK(read[0] == "every 20' | " + std::string(label));
        CHECK(leg_rows(plan_with({line}), 2, RowForm::short_words).key.empty());
    }
}

TEST_CASE("10,000 random schedules: the rows of a card, read back, are the plan's feeds", "[card]") {
    const std::vector<std::string> labels = {"gel",           "bar",    "PB + jam", "rice cup", "5xbar",
                                             "date then fig", "B1 bar", "B1",       "water"};
    Draw draw(20270613);
    std::size_t feeds = 0;
    for (int day = 0; day < 10'000; ++day) {
        const Road leg = draw.leg();
        Plan plan;
        Taken wanted, read;
        for (long lines = draw.between(1, 4); lines > 0; --lines) {
            plan.lines.push_back(draw.line(leg));
            const Line& line = plan.lines.back();
            for (const LegMoment& at : line.at)
                for (const LineItem& item : line.items)
                    wanted.emplace(std::lround(line.by_km ? at.km * 1000 : at.at_s.count() / 60),
                                   meant(line, item));
        }
        constexpr RowForm forms[] = {RowForm::words, RowForm::short_words, RowForm::shortest};
        const auto [shown, key] = leg_rows(plan, 0, forms[draw.between(0, 2)]);
        const std::string in_key = key.find(" of B1") == std::string::npos ? "" : "B1";
        for (const CardRow& row : shown)
            for (const long at :
                 moments_read(row.window.empty() ? row.when : row.when + " " + row.window, leg))
                for (const std::string& item : items_read(with_bottle(row, in_key), labels))
                    read.emplace(at, item);
        const auto sorted = [](const Taken& taken) {
            std::vector<std::pair<long, std::string>> all(taken.begin(), taken.end());
            std::sort(all.begin(), all.end());
            return all;
        };
        if (sorted(read) != sorted(wanted)) {
            std::string said;
            for (const CardRow& row : shown)
                said += row.when + " " + row.window + " | " + row.what + "\n";
            FAIL(said);
        }
        feeds += wanted.size();
    }
    CHECK(feeds > 100'000);
}
