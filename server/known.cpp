#include "server/known.h"

#include <algorithm>
#include <cstddef>

namespace ahead::server {
namespace {

constexpr std::size_t most_fields = 8;
constexpr std::size_t most_ways = 256;

/// The one that fits, moved to the front; nothing when none does.
template <class Value, class Fits>
std::shared_ptr<const Value> recalled(std::list<std::shared_ptr<const Value>>& known,
                                      const Fits& fits) {
  const auto found = std::ranges::find_if(known, [&](const auto& one) { return fits(*one); });
  if (found == known.end()) return nullptr;
  known.splice(known.begin(), known, found);
  return known.front();
}

template <class Value>
void remember(std::list<std::shared_ptr<const Value>>& known, std::shared_ptr<const Value> value,
              std::size_t most) {
  known.push_front(std::move(value));
  if (known.size() > most) known.pop_back();
}

bool same_task(const coach::Task& a, const coach::Task& b) {
  return a.rules == b.rules && a.colour == b.colour && a.colours == b.colours && a.own == b.own &&
         a.black == b.black;
}

}  // namespace

coach::Scene Known::scene(const coach::Layout& layout, std::optional<int> ball,
                          const coach::Player& player) {
  const coach::ToPlay colour =
      ball ? coach::colour_played(layout, *ball) : coach::colour_played(layout, 1);
  std::shared_ptr<const engine::Playfield> field;
  {
    const std::scoped_lock lock(mutex_);
    field = recalled(fields_, [&](const auto& one) { return one.table() == layout.table; });
  }
  if (!field) {
    field = std::make_shared<const engine::Playfield>(layout.table);
    const std::scoped_lock lock(mutex_);
    remember(fields_, field, most_fields);
  }
  return coach::scene_of(layout, colour, player, *field);
}

std::optional<coach::Way> Known::way(const coach::Scene& scene, const coach::Position& position,
                                     int ball, int pocket) {
  coach::Position others = position;
  others.at[0] = {};
  {
    const std::scoped_lock lock(mutex_);
    const auto known = recalled(ways_, [&](const KnownWay& one) {
      return one.ball == ball && one.pocket == pocket && one.others == others &&
             same_task(one.task, scene.task) && one.table == scene.field.table();
    });
    if (known) return known->way;
  }
  auto found = std::make_shared<const KnownWay>(
      KnownWay{.table = scene.field.table(),
               .task = scene.task,
               .others = std::move(others),
               .ball = ball,
               .pocket = pocket,
               .way = coach::way_to(scene, position, ball, pocket)});
  const std::scoped_lock lock(mutex_);
  remember(ways_, found, most_ways);
  return found->way;
}

}  // namespace ahead::server
