#include "formats/workbench/questions.h"

#include <limits>
#include <string>
#include <utility>
#include <vector>

#include "coach/after/aftermath.h"
#include "formats/document.h"
#include "formats/layout_checks.h"
#include "formats/names.h"
#include "formats/units.h"
#include "formats/values.h"
#include "formats/workbench/library.h"

namespace ahead::formats {
namespace {

constexpr std::string_view request = "request";
constexpr Range on_bed_mm{.least = -1e6, .most = 1e6, .unit = "mm", .decimals = 3};

coach::Player who_plays(const Field& field) {
  if (field.is_object()) return player_of(field);
  if (!field.is_text()) field.refuse_kind("a player's name or a whole player");
  const auto ids = coach::player_preset_ids();
  return *coach::player_preset(ids[field.choice(ids)]);
}

std::uint64_t seed_of(const Keys& keys) {
  const auto seed = keys.optional("seed");
  return seed ? seed->whole(std::numeric_limits<std::uint64_t>::max()) : 1;
}

bool truth_or(const Keys& keys, std::string_view key, bool fallback) {
  const auto field = keys.optional(key);
  return field ? field->truth() : fallback;
}

/// The keys "layout" and "player".
TableQuestion table_of_question(const Keys& keys) {
  TableQuestion question{.layout = layout_of(keys.required("layout")),
                         .player = who_plays(keys.required("player"))};
  question.layout.table.cue = coach::cue_of(question.player, question.layout.table.cue);
  return question;
}

coach::MeantPot pot_of(const Field& field, const coach::Layout& layout) {
  const Keys keys(field, {"ball", "pocket"});
  std::vector<std::string_view> ids;
  for (std::size_t i = 1; i < layout.balls.size(); ++i) ids.push_back(layout.balls[i].id);
  std::vector<std::string_view> pockets;
  for (const engine::Pocket& pocket : layout.table.pockets) pockets.push_back(name_of(pocket.name));
  return {.ball = static_cast<int>(keys.required("ball").choice(ids)) + 1,
          .pocket = static_cast<int>(keys.required("pocket").choice(pockets))};
}

coach::AimedTouch touch_of(const Field& field, const engine::Cue& cue) {
  const Keys keys(field, {"side", "height", "cue_speed", "elevation_deg"});
  constexpr Range fraction{.least = -1, .most = 1, .unit = "of the ball's radius"};
  constexpr Range speed{.least = 0, .most = 15, .unit = "m/s", .open = true};
  constexpr Range quarter{.least = 0, .most = 90, .unit = "degrees"};
  const coach::AimedTouch aimed{
      .touch = {.side = keys.required("side").number(fraction),
                .height = keys.required("height").number(fraction),
                .cue_speed_mps = keys.required("cue_speed").number(speed)},
      .elevation_rad = rad_of_deg * keys.number_or("elevation_deg", quarter, 0)};
  const engine::Strike strike{.side = aimed.touch.side, .height = aimed.touch.height};
  if (engine::miscues(strike, cue)) {
    refuse(miscue(field.where(), engine::offset(strike), cue.miscue_offset));
  }
  return aimed;
}

ShotQuestion shot_question_of(const Field& field) {
  const Keys keys(field, {"layout", "player", "call", "touch", "strike", "tries", "seed", "face"});
  ShotQuestion question{.table = table_of_question(keys), .face = truth_or(keys, "face", false)};
  const coach::Layout& layout = question.table.layout;
  const auto call = keys.optional("call");
  if (call && !call->is_null()) question.live.pot = pot_of(*call, layout);
  const auto touch = keys.optional("touch");
  const auto strike = keys.optional("strike");
  if (touch && strike) refuse(unknown_key(field.where(), "strike", {}));
  if (strike) {
    question.live.how = bare_strike_of(*strike, layout.table.cue);
  } else if (!question.live.pot) {
    refuse(missing_key(field.where(), touch ? "call" : "strike"));
  } else if (touch) {
    question.live.how = touch_of(*touch, layout.table.cue);
  }
  const auto tries = keys.optional("tries");
  question.live.tries = tries ? static_cast<int>(tries->whole(most_tries)) : live_tries;
  question.live.seed = seed_of(keys);
  return question;
}

PlanQuestion plan_question_of(const Field& field) {
  const Keys keys(field, {"layout", "player", "first", "seed"});
  PlanQuestion question{.table = table_of_question(keys)};
  const coach::Layout& layout = question.table.layout;
  const auto first = keys.optional("first");
  if (first && !first->is_null()) {
    const Keys inside(*first, {"call", "strike"});
    const coach::MeantPot pot = pot_of(inside.required("call"), layout);
    question.first = {.ball = pot.ball,
                      .pocket = pot.pocket,
                      .strike = bare_strike_of(inside.required("strike"), layout.table.cue)};
  }
  question.table.seed = seed_of(keys);
  return question;
}

coach::Wanted wanted_of(const Field& field, const coach::Layout& layout) {
  const Keys keys(field, {"circle", "region", "next"});
  if (const auto circle = keys.optional("circle")) {
    constexpr Range radius_mm{.least = 0, .most = 2000, .unit = "mm", .open = true};
    const Keys inside(*circle, {"at", "radius_mm"});
    return coach::Leave{.at = inside.required("at").point_m(on_bed_mm),
                        .radius_m = m_of_mm * inside.required("radius_mm").number(radius_mm)};
  }
  if (const auto region = keys.optional("region")) {
    constexpr Count corners{.least = 3, .most = 200, .words = "3 to 200 corners"};
    coach::Region outlined;
    for (const Field& corner : Keys(*region, {"outline"}).required("outline").items(corners)) {
      outlined.outline.push_back(corner.point_m(on_bed_mm));
    }
    return outlined;
  }
  const coach::MeantPot next = pot_of(keys.required("next"), layout);
  return coach::NextPot{.ball = next.ball, .pocket = next.pocket};
}

LeaveQuestion leave_question_of(const Field& field) {
  const Keys keys(field, {"layout", "player", "call", "wanted", "care", "seed"});
  LeaveQuestion question{.table = table_of_question(keys)};
  question.pot = pot_of(keys.required("call"), question.table.layout);
  const auto wanted = keys.optional("wanted");
  if (wanted && !wanted->is_null()) {
    question.wanted = wanted_of(*wanted, question.table.layout);
    const auto* next = std::get_if<coach::NextPot>(&*question.wanted);
    if (next != nullptr && next->ball == question.pot.ball) {
      std::vector<std::string_view> others;
      for (std::size_t i = 1; i < question.table.layout.balls.size(); ++i) {
        if (static_cast<int>(i) != next->ball) {
          others.push_back(question.table.layout.balls[i].id);
        }
      }
      const auto id = question.table.layout.balls[static_cast<std::size_t>(next->ball)].id;
      refuse(unknown_choice(
          {.file = wanted->where().file, .place = wanted->where().place + "/next/ball"}, id,
          others));
    }
  }
  if (const auto care = keys.optional("care")) {
    constexpr std::array<std::string_view, 2> cares{"quick", "full"};
    question.quick = care->choice(cares) == 0;
  }
  question.table.seed = seed_of(keys);
  return question;
}

AfterQuestion after_question_of(const Field& field) {
  const Keys keys(field, {"plan", "shot", "actual", "player", "seed"});
  AfterQuestion question{.plan = plan_of(keys.required("plan"))};
  const Field shot = keys.required("shot");
  const auto number = shot.whole(32);
  if (number < 1 || number > question.plan.shots.size()) {
    refuse(out_of_range(shot.where(), static_cast<double>(number),
                        "from 1 to " + std::to_string(question.plan.shots.size())));
  }
  question.shot = number - 1;
  const Field actual = keys.required("actual");
  question.actual = layout_of(actual);
  // The plan's table has the cue of its player.
  const engine::Table& table = question.plan.layout.table;
  question.actual.table.cue = table.cue;
  const auto at_actual = [&](std::string_view place) {
    return Where{.file = actual.where().file, .place = actual.where().place + std::string(place)};
  };
  if (!(question.actual.table == table)) {
    refuse(other_table(at_actual("/table"), question.actual.table.id, table.id));
  }
  if (const auto ball = coach::newcomer(question.plan.shots[question.shot], question.actual)) {
    refuse(ball_not_there(at_actual("/balls"), question.actual.balls[*ball].id, number));
  }
  const auto player = keys.optional("player");
  question.player = player && !player->is_null() ? who_plays(*player) : question.plan.player;
  question.seed = seed_of(keys);
  return question;
}

std::vector<std::string> chosen(const Keys& keys, std::string_view key, Names among,
                                std::vector<std::string> fallback) {
  const auto field = keys.optional(key);
  if (!field) return fallback;
  std::vector<std::string> found;
  for (const Field& each : field->items({.most = among.size(), .words = "each at most once"})) {
    found.emplace_back(among[each.choice(among)]);
  }
  return found;
}

std::string choice_or(const Keys& keys, std::string_view key, Names among, std::string fallback) {
  const auto field = keys.optional(key);
  return field ? std::string(among[field->choice(among)]) : std::move(fallback);
}

/// A whole number from `least` to `most`.
std::uint64_t whole_or(const Keys& keys, std::string_view key, std::uint64_t least,
                       std::uint64_t most, std::uint64_t fallback) {
  const auto field = keys.optional(key);
  if (!field) return fallback;
  const std::uint64_t number = field->whole(most);
  if (number < least) {
    refuse(out_of_range(field->where(), static_cast<double>(number),
                        "from " + std::to_string(least) + " to " + std::to_string(most)));
  }
  return number;
}

LessonSettings lesson_settings_of(const Field& field, std::size_t shots) {
  const Keys keys(field, {"what", "for", "units", "words", "layers", "transparent", "png_width",
                          "films", "clip"});
  LessonSettings settings;
  settings.what = chosen(keys, "what", lesson_outputs, settings.what);
  settings.reader = choice_or(keys, "for", lesson_readers, settings.reader);
  settings.units = choice_or(keys, "units", lesson_units, settings.units);
  settings.vocabulary = choice_or(keys, "words", lesson_vocabularies, settings.vocabulary);
  settings.layers = chosen(keys, "layers", lesson_layers, settings.layers);
  settings.transparent = truth_or(keys, "transparent", settings.transparent);
  settings.png_width = static_cast<int>(whole_or(keys, "png_width", least_png_width, most_png_width,
                                                 static_cast<std::uint64_t>(settings.png_width)));
  settings.films = chosen(keys, "films", lesson_films, settings.films);
  settings.clip = whole_or(keys, "clip", 1, shots, settings.clip);
  return settings;
}

LessonQuestion lesson_question_of(const Field& field, const nlohmann::json& body) {
  const Keys keys(field, {"plan", "settings", "words", "picture"});
  LessonQuestion question{.plan = plan_of(keys.required("plan"))};
  question.plan_text = file_text(body["plan"].dump());
  if (const auto settings = keys.optional("settings")) {
    question.settings = lesson_settings_of(*settings, question.plan.shots.size());
  }
  const auto words = keys.optional("words");
  if (words && !words->is_null()) question.words = teacher_words_of(*words);
  if (const auto picture = keys.optional("picture")) question.picture = picture->name();
  return question;
}

}  // namespace

Asked<LessonQuestion> read_lesson_question(std::string_view body) {
  const auto document = parse_json(body, request);
  if (!document) return std::unexpected(document.error());
  return read_document<LessonQuestion>(
      body, request, [&](const Field& field) { return lesson_question_of(field, *document); });
}

Asked<PlanQuestion> read_plan_question(std::string_view body) {
  return read_document<PlanQuestion>(body, request, plan_question_of);
}

Asked<TableQuestion> read_table_question(std::string_view body) {
  return read_document<TableQuestion>(body, request, [](const Field& field) {
    const Keys keys(field, {"layout", "player", "seed"});
    TableQuestion question = table_of_question(keys);
    question.seed = seed_of(keys);
    return question;
  });
}

Asked<TableQuestion> read_pots_question(std::string_view body) {
  return read_document<TableQuestion>(body, request, [](const Field& field) {
    return table_of_question(Keys(field, {"layout", "player"}));
  });
}

Asked<ShotQuestion> read_shot_question(std::string_view body) {
  return read_document<ShotQuestion>(body, request, shot_question_of);
}

Asked<LeaveQuestion> read_leave_question(std::string_view body) {
  return read_document<LeaveQuestion>(body, request, leave_question_of);
}

Asked<AfterQuestion> read_after_question(std::string_view body) {
  return read_document<AfterQuestion>(body, request, after_question_of);
}

Asked<StrikeQuestion> read_strike_question(std::string_view body) {
  return read_document<StrikeQuestion>(body, request, [](const Field& field) {
    const Keys keys(field, {"layout", "strike"});
    StrikeQuestion question{.layout = layout_of(keys.required("layout"))};
    question.strike = bare_strike_of(keys.required("strike"), question.layout.table.cue);
    return question;
  });
}

}  // namespace ahead::formats
