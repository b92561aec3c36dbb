#include "lesson/words/names.h"

#include <algorithm>
#include <array>

namespace ahead::lesson {

std::string ball_name(std::string_view id) {
  if (id == "cue") return "the cue ball";
  const auto dash = id.find('-');
  if (dash == std::string_view::npos) return "the " + std::string(id);
  return std::string(id.substr(0, dash)) + " " + std::string(id.substr(dash + 1));
}

std::string pocket_name(const engine::Table& table, int pocket) {
  const auto name = static_cast<std::size_t>(table.pockets[static_cast<std::size_t>(pocket)].name);
  return "the " + std::string(engine::pocket_names[name]);
}

std::string_view group_name(coach::ToPlay colour) {
  switch (colour) {
    case coach::ToPlay::red:
      return "reds";
    case coach::ToPlay::yellow:
      return "yellows";
    case coach::ToPlay::black:
      return "black";
    case coach::ToPlay::solid:
      return "solids";
    case coach::ToPlay::stripe:
      return "stripes";
    case coach::ToPlay::colours:
      return "colours";
    case coach::ToPlay::open:
      break;
  }
  return "either colour";
}

std::string_view nearest_cushion(const engine::Table& table, engine::Vec2 place) {
  const std::array distances_m{place.x, table.width_m - place.x, table.length_m - place.y, place.y};
  constexpr std::array<std::string_view, 4> names{"left", "right", "top", "baulk"};
  return names[static_cast<std::size_t>(std::ranges::min_element(distances_m) -
                                        distances_m.begin())];
}

std::string capitalised(std::string words) {
  if (!words.empty() && words.front() >= 'a' && words.front() <= 'z') {
    words.front() = static_cast<char>(words.front() - 'a' + 'A');
  }
  return words;
}

std::string listed(const std::vector<std::string>& items) {
  std::string words;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) words += i + 1 == items.size() ? " and " : ", ";
    words += items[i];
  }
  return words;
}

}  // namespace ahead::lesson
