#include "formats/reading.h"

#include <array>
#include <cstddef>
#include <string_view>

#include <nlohmann/json.hpp>

#include "formats/json_print.h"
#include "formats/names.h"
#include "formats/shot_option.h"
#include "formats/units.h"
#include "formats/values.h"

namespace ahead::formats {
namespace {

using coach::Reading;
using nlohmann::ordered_json;

constexpr std::array<std::string_view, 3> shut_names{"blocked", "angle", "cushion"};
constexpr std::array<std::string_view, 3> not_from_names{"cut", "ghost", "in-way"};
constexpr std::array<std::string_view, 6> means_names{"plant",    "set",    "cannon",
                                                      "off-ball", "double", "cross-double"};
constexpr std::array<std::string_view, 4> standing_names{"read", "memory", "inferred", "unseen"};

/// Writes one reading; ids and pocket names come from its layout.
class Writer {
 public:
  explicit Writer(const Reading& reading) : reading_(reading) {}

  [[nodiscard]] ordered_json document() const;

 private:
  [[nodiscard]] const std::string& id(int ball) const {
    return reading_.layout.balls[static_cast<std::size_t>(ball)].id;
  }
  [[nodiscard]] std::string_view pocket(int index) const {
    return name_of(reading_.layout.table.pockets[static_cast<std::size_t>(index)].name);
  }
  [[nodiscard]] ordered_json ids(const std::vector<int>& balls) const;
  [[nodiscard]] ordered_json pockets(const std::vector<int>& list) const;
  [[nodiscard]] ordered_json blockers(const std::vector<coach::Blocker>& blockers) const;
  [[nodiscard]] ordered_json rules() const;
  [[nodiscard]] ordered_json colour(const coach::ColourReading& colour) const;
  [[nodiscard]] ordered_json ball(const coach::BallReading& ball) const;
  [[nodiscard]] ordered_json into(const coach::PocketReading& pocket) const;
  [[nodiscard]] ordered_json other_way(const coach::OtherWay& way) const;
  [[nodiscard]] ordered_json freed_by(const coach::BallReading& ball) const;
  [[nodiscard]] ordered_json map(const std::vector<bool>& region) const;

  const Reading& reading_;
};

ordered_json Writer::ids(const std::vector<int>& balls) const {
  ordered_json list = ordered_json::array();
  for (const int ball : balls) list.push_back(id(ball));
  return list;
}

ordered_json Writer::pockets(const std::vector<int>& indices) const {
  ordered_json list = ordered_json::array();
  for (const int index : indices) list.push_back(pocket(index));
  return list;
}

ordered_json Writer::blockers(const std::vector<coach::Blocker>& blockers) const {
  ordered_json list = ordered_json::array();
  for (const coach::Blocker& one : blockers) {
    list.push_back({{"ball", id(one.ball)}, {"overlap_mm", rounded(mm(one.overlap_m), 2)}});
  }
  return list;
}

ordered_json clause(const coach::Clause& clause) {
  return {{"text", clause.text}, {"standing", name_of(clause.standing, standing_names)}};
}

ordered_json Writer::rules() const {
  const coach::RulesAtHand& at_hand = coach::rules_at_hand(reading_.layout.rules);
  ordered_json sights = ordered_json::array();
  for (const coach::Sight& sight : reading_.sights) {
    ordered_json one;
    one["ball"] = id(sight.ball);
    one["on"] = coach::has(reading_.on, sight.ball);
    one["seen"] = rounded(sight.seen, 4);
    one["left_edge"] = sight.left_edge;
    one["right_edge"] = sight.right_edge;
    one["touching"] = sight.touching;
    one["hidden_by"] = ids(sight.hidden_by);
    sights.push_back(std::move(one));
  }
  ordered_json json;
  json["rules"] = name_of(reading_.layout.rules);
  json["total_snooker"] = reading_.snookered;
  json["both_edges_hidden"] = reading_.edges_hidden;
  json["sights"] = std::move(sights);
  json["clauses"] = {{"snookered", clause(at_hand.snookered)},
                     {"touching", clause(at_hand.touching)},
                     {"open_table", clause(at_hand.open_table)}};
  return json;
}

ordered_json Writer::colour(const coach::ColourReading& colour) const {
  ordered_json json;
  json["colour"] = name_of(colour.colour);
  json["clear"] = json_of(colour.clear);
  json["guide"] = rounded(colour.guide, 4);
  json["problems"] = ids(colour.problems);
  json["insurance"] = ids(colour.insurance);
  json["first"] = nullptr;
  if (colour.first) {
    json["first"] = {{"ball", id(colour.first->ball)},
                     {"pocket", pocket(colour.first->pocket)},
                     {"pot", rounded(colour.first->pot, 4)}};
  }
  json["keys"] = ordered_json::array();
  for (const coach::KeyBall& key : colour.keys) {
    json["keys"].push_back({{"ball", id(key.ball)}, {"black_after", rounded(key.black_after, 4)}});
  }
  json["black"] = ordered_json::array();
  for (const coach::BlackPocket& one : colour.black) {
    json["black"].push_back({{"pocket", pocket(one.pocket)}, {"share", rounded(one.share, 4)}});
  }
  return json;
}

/// One text a row of places, from the baulk end up.
ordered_json Writer::map(const std::vector<bool>& region) const {
  const coach::Places& places = reading_.places;
  ordered_json rows = ordered_json::array();
  const auto columns = static_cast<std::size_t>(places.columns);
  for (std::size_t from = 0; from < region.size(); from += columns) {
    std::string row;
    for (std::size_t i = from; i < from + columns; ++i) {
      row += region[i] ? 'x' : places.free[i] ? '.' : 'o';
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

ordered_json Writer::into(const coach::PocketReading& into) const {
  const coach::Opening& opening = into.opening;
  const auto spans = [](const coach::PacedGates& gates) {
    ordered_json list = ordered_json::array();
    for (const auto& gate : gates) {
      if (gate) {
        list.push_back({rounded(degrees(gate->from_rad), 3), rounded(degrees(gate->to_rad), 3)});
      } else {
        list.push_back(nullptr);
      }
    }
    return list;
  };
  ordered_json json;
  json["pocket"] = pocket(opening.pocket);
  json["goes"] = into.goes();
  json["to_pocket_mm"] = rounded(mm(opening.to_pocket_m), 1);
  json["gates_deg"] = spans(opening.standing);
  json["bare_gates_deg"] = spans(opening.alone);
  json["shut"] =
      opening.shut ? ordered_json(name_of(*opening.shut, shut_names)) : ordered_json(nullptr);
  json["blockers"] = blockers(opening.blockers);
  json["share"] = rounded(into.share, 4);
  json["from_here"] = nullptr;
  if (opening.goes()) {
    const coach::LineUp& line_up = into.from_here;
    json["from_here"] = {
        {"cut_deg", rounded(degrees(line_up.cut_rad), 2)},
        {"not_because", line_up.not_from ? ordered_json(name_of(*line_up.not_from, not_from_names))
                                         : ordered_json(nullptr)},
        {"in_way", blockers(line_up.in_way)}};
  }
  json["region"] = into.goes() ? map(into.region) : ordered_json(nullptr);
  return json;
}

ordered_json Writer::other_way(const coach::OtherWay& way) const {
  ordered_json json;
  json["pocket"] = pocket(way.pocket);
  json["means"] = name_of(way.how.means, means_names);
  json["by"] = ids(way.how.by);
  json["cushions"] = way.how.cushions;
  json["aim_from_deg"] = rounded(degrees(way.from_rad), 4);
  json["aim_to_deg"] = rounded(degrees(way.to_rad), 4);
  json["strike"] = json_of(way.strike);
  json["pot"] = json_of(way.pot);
  return json;
}

ordered_json Writer::freed_by(const coach::BallReading& ball) const {
  if (!ball.freed_by) return nullptr;
  const coach::Nudge& nudge = *ball.freed_by;
  return {{"ball", id(nudge.ball)},
          {"contact", json_of(nudge.contact, 1)},
          {"push_deg", rounded(degrees(nudge.push_rad), 1)},
          {"moves_mm", rounded(mm(nudge.moves_m), 1)},
          {"to", json_of(nudge.to, 1)},
          {"opens", pockets(nudge.opens)}};
}

ordered_json Writer::ball(const coach::BallReading& ball) const {
  ordered_json json;
  json["ball"] = id(ball.ball);
  json["ways"] = ball.ways();
  json["ways_from_here"] = ball.ways_from_here();
  json["share"] = rounded(ball.share, 4);
  json["problem"] = ball.problem;
  json["insurance"] = ball.insurance;
  json["cushion_room_mm"] = rounded(mm(ball.cushion_room_m), 2);
  json["neighbours"] = ids(ball.neighbours);
  json["pockets"] = ordered_json::array();
  for (const coach::PocketReading& one : ball.pockets) json["pockets"].push_back(into(one));
  json["other_ways"] = ordered_json::array();
  for (const coach::OtherWay& way : ball.other_ways) json["other_ways"].push_back(other_way(way));
  json["freed_by"] = freed_by(ball);
  return json;
}

ordered_json Writer::document() const {
  const coach::Places& places = reading_.places;
  ordered_json json;
  json["format"] = reading_format;
  json["layout"] = json_of(reading_.layout);
  json["player"] = reading_.player.id;
  json["seed"] = reading_.seed;
  json["colours"] = ordered_json::array();
  for (const coach::ColourReading& one : reading_.colours) json["colours"].push_back(colour(one));
  json["at_hand"] = rules();
  json["paces"] = coach::gate_paces_mps;
  json["places"] = {{"first", json_of(places.first)},
                    {"spacing_mm", rounded(mm(places.spacing_m), 3)},
                    {"columns", places.columns},
                    {"rows", places.rows}};
  json["balls"] = ordered_json::array();
  for (const coach::BallReading& one : reading_.balls) json["balls"].push_back(ball(one));
  return json;
}

}  // namespace

std::string write_reading(const Reading& reading) { return print_json(Writer(reading).document()); }

}  // namespace ahead::formats
