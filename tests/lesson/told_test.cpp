#include <algorithm>
#include <cctype>
#include <cmath>
#include <functional>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "formats/plan.h"
#include "lesson/told/edits.h"
#include "lesson/told/glossary.h"
#include "lesson/told/grammar.h"
#include "lesson/told/lesson_words.h"
#include "lesson/told/measure.h"
#include "lesson/told/speaker.h"
#include "lesson/words/names.h"
#include "tests/support/text_of.h"

namespace ahead::lesson {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

/// A clearance of the planner's. Reading it back takes a fraction of what planning does.
struct Lesson {
  coach::Plan plan;
  std::vector<coach::BallReading> balls;
};

const Lesson& lesson_at_hand() {
  static const Lesson made = [] {
    const std::string file = AHEAD_SOURCE_DIR "/examples/after/plan.json";
    coach::Plan plan = *formats::read_plan(test::text_of(file), file);
    std::vector<coach::BallReading> balls = coach::read_balls(plan.layout);
    return Lesson{std::move(plan), std::move(balls)};
  }();
  return made;
}

std::vector<Voice> voices() {
  std::vector<Voice> all;
  for (const Depth depth : {Depth::viewer, Depth::pupil, Depth::self}) {
    for (const Units units : {Units::mm, Units::in}) {
      for (const Vocabulary words : {Vocabulary::uk, Vocabulary::us}) {
        all.push_back({depth, units, words});
      }
    }
  }
  return all;
}

std::vector<Sentence> all_of(const LessonWords& words) {
  std::vector<Sentence> all = words.clearance;
  for (const auto& shot : words.shots) all.insert(all.end(), shot.begin(), shot.end());
  return all;
}

void for_every_lesson(const std::function<void(const Lesson&, const LessonWords&)>& check) {
  const Lesson& lesson = lesson_at_hand();
  for (const Voice& voice : voices()) {
    check(lesson, lesson_words(lesson.plan, lesson.balls, voice));
  }
}

// ---- The grammar -------------------------------------------------------------------------------

Known known(std::map<std::string, std::string> facts,
            std::set<std::string, std::less<>> when = {}) {
  Known all{.conditions = std::move(when)};
  for (auto& [name, words] : facts) all.say(name, words, "/" + name);
  return all;
}

TEST(TheGrammar, SaysFactsRulesAndOptions) {
  const Grammar grammar = *read_grammar(
      "greeting\n  {Ball} goes to {pocket}[, {side}]<how>.\n"
      "how\n  (hard) , hard\n  (!hard) , softly\n");
  Speaker speaker(grammar, {});

  const auto sentence = speaker.say(
      "red-2", "greeting", known({{"ball", "red 2"}, {"pocket", "the top-left"}}, {"hard"}));

  ASSERT_TRUE(sentence);
  EXPECT_EQ(sentence->text, "Red 2 goes to the top-left, hard.");
  EXPECT_EQ(sentence->key, "red-2.greeting");
  EXPECT_EQ(sentence->facts.size(), 2U);
  EXPECT_FALSE(speaker.say("red-2", "greeting", known({{"ball", "red 2"}})));
}

TEST(TheGrammar, TakesTheWayUsedLeastAndStopsAtTheThirdTime) {
  const Grammar grammar = *read_grammar("a\n  One.\n  Two.\n");
  Speaker speaker(grammar, {});
  std::vector<std::string> said;
  for (int i = 0; i < 5; ++i) {
    if (const auto sentence = speaker.say("x", "a", {})) said.push_back(sentence->text);
  }
  EXPECT_THAT(said, ElementsAre("One.", "Two.", "One.", "Two."));
}

TEST(TheGrammar, NamesTheLineThatIsWrong) {
  EXPECT_EQ(read_grammar("a\n  {b\n").error(), "line 2: { without a name and }");
  EXPECT_EQ(read_grammar("a\n  [b\n").error(), "line 2: [ without ]");
  EXPECT_EQ(read_grammar("a\n  b]\n").error(), "line 2: ] without [");
  EXPECT_EQ(read_grammar("  b\n").error(), "line 1: no rule yet");
  EXPECT_EQ(read_grammar("a\n  b\na\n").error(), "line 3: a comes twice");
}

void collect(const std::vector<Piece>& pieces, std::set<std::string>& rules) {
  for (const Piece& piece : pieces) {
    if (piece.kind == Piece::Kind::rule) rules.insert(piece.text);
    collect(piece.inside, rules);
  }
}

TEST(TheHouseGrammar, RefersOnlyToRulesThatItHas) {
  std::set<std::string> rules;
  for (const auto& [name, ways] : house_grammar()) {
    EXPECT_FALSE(ways.empty()) << name;
    for (const Way& way : ways) collect(way.pieces, rules);
  }
  for (const std::string& rule : rules) {
    const bool capital = house_grammar().contains(rule);
    EXPECT_TRUE(capital) << rule;
  }
}

// ---- What is said ------------------------------------------------------------------------------

TEST(ALesson, IsToldInWellFormedSentences) {
  for_every_lesson([](const Lesson&, const LessonWords& words) {
    for (const Sentence& each : all_of(words)) {
      EXPECT_THAT(each.text, ::testing::Not(::testing::MatchesRegex(".*[][{}<>].*"))) << each.key;
      for (const char* wrong : {"  ", " ,", " .", "..", ",,", " ;"}) {
        EXPECT_EQ(each.text.find(wrong), std::string::npos) << each.text;
      }
      for (const std::string& sentence : split_sentences(each.text)) {
        const char first = sentence.front();
        EXPECT_TRUE((first >= 'A' && first <= 'Z') || (first >= '0' && first <= '9')) << sentence;
        EXPECT_TRUE(sentence.back() == '.' || each.key.ends_with(".title")) << sentence;
      }
    }
  });
}

TEST(ALesson, RepeatsNoSentenceMoreThanTwice) {
  for_every_lesson([](const Lesson&, const LessonWords& words) {
    std::map<std::string, int> times;
    for (const Sentence& each : all_of(words)) {
      for (const std::string& sentence : split_sentences(each.text)) ++times[sentence];
    }
    for (const auto& [sentence, count] : times) EXPECT_LE(count, 2) << sentence;
  });
}

TEST(ALesson, OfEightShotsRepeatsNoSentenceMoreThanTwice) {
  // One more shot, the same as another: the hardest to tell without repeating oneself.
  coach::Plan eight = lesson_at_hand().plan;
  eight.shots.insert(eight.shots.begin() + 3, eight.shots[3]);
  ASSERT_EQ(eight.shots.size(), 8U);
  for (const Voice& voice : voices()) {
    const LessonWords words = lesson_words(eight, lesson_at_hand().balls, voice);
    std::map<std::string, int> times;
    for (const Sentence& each : all_of(words)) {
      for (const std::string& sentence : split_sentences(each.text)) ++times[sentence];
    }
    for (const auto& [sentence, count] : times) EXPECT_LE(count, 2) << sentence;
    for (const auto& shot : words.shots) EXPECT_FALSE(LessonWords::text_of(shot, "task").empty());
  }
}

TEST(ALesson, SaysWhatToDoAndWhyOfEveryShot) {
  for_every_lesson([](const Lesson& lesson, const LessonWords& words) {
    ASSERT_EQ(words.shots.size(), lesson.plan.shots.size());
    for (const auto& shot : words.shots) {
      for (const char* topic : {"task", "strike", "path", "leave"}) {
        EXPECT_FALSE(LessonWords::text_of(shot, topic).empty()) << topic;
      }
    }
  });
}

TEST(ALesson, NamesSideAtTheCushionOnlyWhereItWasStruck) {
  Lesson lesson = lesson_at_hand();
  const auto with_side =
      std::ranges::find_if(lesson.plan.shots, [](const coach::PlannedShot& shot) {
        return shot.best.strike.side != 0 && shot.best.cue_path.running_side;
      });
  ASSERT_NE(with_side, lesson.plan.shots.end());
  const auto shot = static_cast<std::size_t>(with_side - lesson.plan.shots.begin());
  const auto path = [&] {
    const LessonWords words = lesson_words(lesson.plan, lesson.balls, {});
    return std::string(LessonWords::text_of(words.shots[shot], "path"));
  };
  EXPECT_THAT(path(), HasSubstr("unning side"));
  with_side->best.strike.side = 0;
  EXPECT_THAT(path(), ::testing::Not(HasSubstr("side")));
}

TEST(ALesson, CautionsOfARaisedCueAtEveryDepth) {
  coach::Plan plan = lesson_at_hand().plan;
  plan.shots[0].best.strike.elevation_rad = 0.32;
  for (const Voice& voice : voices()) {
    const LessonWords words = lesson_words(plan, lesson_at_hand().balls, voice);
    EXPECT_THAT(std::string(LessonWords::text_of(words.shots[0], "caution")), HasSubstr("18°"));
  }
}

// ---- Every number comes from the plan ----------------------------------------------------------

/// What a number in a fact's words stands for, in the unit of the plan's field.
double in_field_unit(double number, const std::string& unit, const std::string& field) {
  if (unit == "mm") return number;
  if (unit == "m") return 1000 * number;
  if (unit == "in") return 25.4 * number;
  if (unit == "ft") return 304.8 * number;
  if (unit == "mph") return 0.44704 * number;
  if (unit == "%" || field.ends_with("/pace/sigma")) return number / 100;
  return number;
}

/// Half of the last digit that is said, in the field's unit; odds are said more coarsely.
double rounding(const std::string& digits, const std::string& unit, const std::string& field) {
  const auto point = digits.find('.');
  const double last = point == std::string::npos
                          ? (unit == "mm" && !field.contains("sigma") ? 10.0 : 1.0)
                          : std::pow(10.0, -static_cast<double>(digits.size() - point - 1));
  return 0.51 * in_field_unit(last, unit, field);
}

/// The number of the plan that a fact's number must agree with, worked out here anew for those
/// that are not fields themselves.
std::vector<double> candidates(const nlohmann::json& plan, const Fact& fact, double cue_radius_mm,
                               double ball_radius_mm, double width_mm, double length_mm) {
  const auto& value = plan.at(nlohmann::json::json_pointer(fact.field));
  const std::string shot = fact.field.substr(0, fact.field.find('/', 7));
  const auto rest_of = [&] {
    return plan.at(nlohmann::json::json_pointer(shot + "/cue_path/rest"))
        .get<std::vector<double>>();
  };
  if (fact.name == "count") return {static_cast<double>(value.size())};
  if (fact.name == "gap") {
    const auto at = rest_of();
    return {std::min({at[0], width_mm - at[0], at[1], length_mm - at[1]}) - cue_radius_mm};
  }
  if (fact.name == "to next") {
    const auto at = rest_of();
    const auto next = plan["shots"][std::stoul(shot.substr(7)) + 1];
    for (const auto& ball : next["balls_before"]) {
      if (ball["id"] != next["ball"]) continue;
      return {std::hypot(ball["at"][0].get<double>() - at[0], ball["at"][1].get<double>() - at[1]) -
              cue_radius_mm - ball_radius_mm};
    }
  }
  if (fact.name == "spread" || fact.name == "half spread" || fact.name == "tight odds") {
    const auto at = rest_of();
    std::vector<double> away;
    double tight = 0;
    for (const auto& place : value) {
      const double x = place[0];
      const double y = place[1];
      away.push_back(std::hypot(x - at[0], y - at[1]));
      if (std::min({x, width_mm - x, y, length_mm - y}) - cue_radius_mm < 10) ++tight;
    }
    std::ranges::sort(away);
    const double share = fact.name == "spread" ? 0.9 : 0.5;
    if (fact.name == "tight odds") return {tight / static_cast<double>(value.size())};
    return {away[static_cast<std::size_t>(share * static_cast<double>(away.size() - 1))]};
  }
  if (fact.name == "fouls" || fact.name == "other fouls") {
    return {value["in_off"].get<double>() + value["wrong_first"].get<double>() +
            value["black_early"].get<double>()};
  }
  if (value.is_object()) {
    return {value["value"].get<double>(), value["low"].get<double>(), value["high"].get<double>()};
  }
  if (value.is_number()) return {value.get<double>()};
  return {};
}

bool agrees(const Fact& fact, const std::vector<double>& numbers) {
  static const std::regex odds("(about|fewer than|more than) ([0-9]+) in ([0-9]+)");
  std::smatch match;
  if (std::regex_match(fact.words, match, odds)) {
    const double said = std::stod(match[2]) / std::stod(match[3]);
    return std::abs(said - numbers.at(0)) <=
           std::max(numbers.at(0) > 0.145 ? 0.051 : 0.0, 0.2 * said);
  }
  static const std::regex figure("(-?[0-9]+(?:\\.[0-9]+)?) ?(mm|mph|m/s|m|in|ft|%|°)?");
  std::size_t i = 0;
  for (std::sregex_iterator at(fact.words.begin(), fact.words.end(), figure), end; at != end;
       ++at) {
    const std::string digits = (*at)[1];
    // The interval's ends carry their "%" in the figure before them.
    std::string unit = (*at)[2];
    if (unit.empty() && numbers.size() == 3) unit = "%";
    const double said = in_field_unit(std::stod(digits), unit, fact.field);
    const double from = numbers.at(std::min(i++, numbers.size() - 1));
    double slack = rounding(digits, unit, fact.field);
    if (fact.words.contains("under 1%") || fact.words.contains("over 99%")) slack = 0.011;
    // A millimetre is the least that is said of a spread or a leave: "10 mm".
    if (std::abs(said - from) > slack + 1e-3 && !(said <= 10 && from < 10)) return false;
  }
  return true;
}

bool has_digit(std::string_view text) {
  return text.find_first_of("0123456789") != std::string_view::npos;
}

TEST(ALesson, TakesEveryNumberFromThePlan) {
  int checked = 0;
  for_every_lesson([&](const Lesson& lesson, const LessonWords& words) {
    const auto plan = nlohmann::json::parse(formats::write_plan(lesson.plan));
    const engine::Table& table = lesson.plan.layout.table;
    std::set<std::string> ids;
    for (const auto& ball : lesson.plan.layout.balls) {
      std::string name = ball.id;
      std::ranges::replace(name, '-', ' ');
      ids.insert(name);
    }
    for (const Sentence& each : all_of(words)) {
      std::string rest = std::regex_replace(each.text, std::regex("8-ball"), "");
      for (const Fact& fact : each.facts) {
        std::string said = std::regex_replace(fact.words, std::regex("8-ball"), "");
        ASSERT_TRUE(plan.contains(nlohmann::json::json_pointer(fact.field))) << fact.field;
        for (const std::string& form : {said, capitalised(said)}) {
          const auto at = rest.find(form);
          if (at == std::string::npos) continue;
          rest.erase(at, form.size());
          break;
        }
        for (const std::string& id : ids) said = std::regex_replace(said, std::regex(id), "");
        if (!has_digit(said)) continue;
        ++checked;
        const auto numbers = candidates(plan, fact, 1000 * table.cue_ball.radius_m,
                                        1000 * table.object_ball.radius_m, 1000 * table.width_m,
                                        1000 * table.length_m);
        ASSERT_FALSE(numbers.empty()) << fact.name << ": " << fact.words << " " << fact.field;
        EXPECT_TRUE(agrees(fact, numbers))
            << fact.name << " says " << fact.words << ", the plan " << numbers[0];
      }
      for (const std::string& id : ids) {
        std::string capital = id;
        capital.front() = static_cast<char>(std::toupper(capital.front()));
        rest = std::regex_replace(rest, std::regex(id + "|" + capital), "");
      }
      EXPECT_FALSE(has_digit(rest)) << each.text << "\nleft: " << rest;
    }
  });
  EXPECT_GT(checked, 600);
}

// ---- Whose words -------------------------------------------------------------------------------

/// The trade's words that only one side uses (common usage, no source).
const std::regex only_uk(
    "\\b(pot|potted|pots|potting|cushions?|baulk|screw|in-off|visit|clearance|"
    "centre|colour|pace|metres?|the black)\\b",
    std::regex::icase);
const std::regex only_us(
    "\\b(english|rails?|kitchen|draw|scratch|inning|run-out|center|group|"
    "8-ball|foot spot|side pockets?)\\b",
    std::regex::icase);

TEST(ALesson, KeepsToOneVocabulary) {
  for_every_lesson([](const Lesson&, const LessonWords& words) {
    const bool us = words.voice.vocabulary == Vocabulary::us;
    for (const Sentence& each : all_of(words)) {
      EXPECT_FALSE(std::regex_search(each.text, us ? only_uk : only_us)) << each.text;
    }
  });
}

TEST(ALesson, KeepsToOneSystemOfUnits) {
  const std::regex metric("[0-9] (mm|m|m/s)$");
  const std::regex inches("[0-9] (in|ft|mph)$");
  for_every_lesson([&](const Lesson&, const LessonWords& words) {
    const bool mm = words.voice.units == Units::mm;
    for (const Sentence& each : all_of(words)) {
      for (const Fact& fact : each.facts) {
        EXPECT_FALSE(std::regex_search(fact.words, mm ? inches : metric)) << each.text;
      }
    }
  });
}

TEST(TheGlossary, ChangesWholeWordsAndKeepsCapitals) {
  EXPECT_EQ(in_vocabulary("Pot the black off the cushion", Vocabulary::us),
            "Make the 8-ball off the rail");
  EXPECT_EQ(in_vocabulary("potential resting cushioned", Vocabulary::us),
            "potential resting cushioned");
  EXPECT_EQ(in_vocabulary("Pot the black", Vocabulary::uk), "Pot the black");
}

TEST(Lengths, AreSaidAsAPersonMeasuresThem) {
  EXPECT_EQ(length_words(0.2834, Units::mm), "280 mm");
  EXPECT_EQ(length_words(1.23, Units::mm), "1.2 m");
  EXPECT_EQ(length_words(0.2834, Units::in), "11 in");
  EXPECT_EQ(length_words(1.23, Units::in), "4.0 ft");
  EXPECT_EQ(speed_words(1.5, Units::in), "3.4 mph");
}

// ---- The teacher's own words -------------------------------------------------------------------

TEST(ATeachersWords, StayWhileTheirFactsDo) {
  const Lesson& lesson = lesson_at_hand();
  const auto told = [&](const coach::Plan& plan) { return lesson_words(plan, lesson.balls, {}); };
  formats::TeacherWords file = with_edits(told(lesson.plan), {}).file;
  const auto first = std::ranges::find_if(
      file.sentences, [](const auto& each) { return each.key.ends_with(".chance"); });
  first->mine = "You can do it.";
  const std::string key = first->key;

  const Edited same = with_edits(told(lesson.plan), file);
  EXPECT_EQ(LessonWords::text_of(same.words.shots[0], "chance"), "You can do it.");
  EXPECT_THAT(same.flagged, IsEmpty());

  coach::Plan other = lesson.plan;
  other.shots[0].best.pot.value = 0.42;
  const Edited changed = with_edits(told(other), same.file);
  EXPECT_THAT(std::string(LessonWords::text_of(changed.words.shots[0], "chance")),
              HasSubstr("4 in 10"));
  EXPECT_THAT(changed.flagged, ElementsAre(key));

  // Nothing is lost: the old plan takes the words up again, and so does the teacher who has looked.
  EXPECT_EQ(
      LessonWords::text_of(with_edits(told(lesson.plan), changed.file).words.shots[0], "chance"),
      "You can do it.");
  formats::TeacherWords looked = changed.file;
  for (auto& each : looked.sentences) each.mine_for.clear();
  EXPECT_EQ(LessonWords::text_of(with_edits(told(other), looked).words.shots[0], "chance"),
            "You can do it.");
}

TEST(ATeachersWords, AreKeptWhenTheirSentenceIsNoLongerSaid) {
  const Lesson& lesson = lesson_at_hand();
  formats::TeacherWords before;
  before.sentences.push_back({.key = "red-99.task", .text = "x", .mine = "Mine."});

  const Edited edited = with_edits(lesson_words(lesson.plan, lesson.balls, {}), before);

  EXPECT_THAT(edited.unused, ElementsAre("red-99.task"));
  const auto read = formats::read_teacher_words(formats::write_teacher_words(edited.file), "w");
  ASSERT_TRUE(read);
  EXPECT_EQ(*read, edited.file);
  EXPECT_EQ(read->unused.at(0).mine, "Mine.");
}

}  // namespace
}  // namespace ahead::lesson
