#include "coach/plan/plan_clearance.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <memory>
#include <span>
#include <utility>

#include "coach/plan/choose.h"
#include "coach/plan/clear_chance.h"
#include "coach/pots/shot_option.h"
#include "coach/rules/colours.h"
#include "coach/stop.h"
#include "coach/threads.h"

namespace ahead::coach {
namespace {

/// Reports progress within one colour's share of the whole.
struct Stage {
  const PlanSettings& settings;
  double from = 0;
  double to = 1;

  void report(std::string_view stage, double fraction) const {
    if (settings.on_progress) {
      settings.on_progress({.stage = stage, .fraction = from + (to - from) * fraction});
    }
  }
};

Layout layout_at(const Layout& layout, const Position& position, ToPlay colour) {
  Layout before = layout;
  before.balls.clear();
  for (std::size_t i = 0; i < layout.balls.size(); ++i) {
    if (!has(position.present, static_cast<int>(i))) continue;
    before.balls.push_back(layout.balls[i]);
    before.balls.back().at = position.at[i];
  }
  before.to_play = left_to_play(before, colour);
  return before;
}

/// One colour being planned, with ever more effort.
class ColourPlan {
 public:
  ColourPlan(const Layout& layout, ToPlay colour, const Player& player,
             const engine::Playfield& field, std::shared_ptr<const Glance> glance)
      : layout_(layout),
        scene_(scene_of(layout, colour, player, field)),
        glance_(std::move(glance)),
        colour_(colour) {}

  [[nodiscard]] ToPlay colour() const { return colour_; }

  /// Nothing when no ball of the colour goes.
  std::optional<Plan> run(Effort effort, const Stage& stage);

  /// Of the last plan's first shot.
  [[nodiscard]] std::optional<Bet> bet(const Plan& plan);

 private:
  [[nodiscard]] ShotOption shown(const Position& position, const Weighed& rival, int runs);
  [[nodiscard]] PlannedShot planned(const Position& position, const std::vector<Weighed>& rivals,
                                    int runs);
  [[nodiscard]] Weighed given(const Position& position, const FirstShot& first) const;
  [[nodiscard]] bool goes_on(const Position& position, const FirstShot& first) const;
  [[nodiscard]] Moment moment(const Position& position, int ball) const;
  void refresh_field(const Position& position);

  const Layout& layout_;
  Scene scene_;
  std::shared_ptr<const Glance> glance_;
  ToPlay colour_;
  Budget budget_;
  std::shared_ptr<const ValueField> first_field_;  ///< of the layout: efforts begin with it
  std::shared_ptr<const ValueField> field_;
  std::optional<Opponent> opponent_;
  std::vector<Run> runs_;        ///< behind the option shown last
  std::vector<Run> first_runs_;  ///< behind the plan's first shot
  Position leaves_;              ///< by the shot planned last, as meant
  Plan plan_;
};

/// The field holds while no ball has moved but those potted.
void ColourPlan::refresh_field(const Position& position) {
  const Grid grid = budget_.grid;
  if (field_ && field_->grid() == grid && moved(field_->position(), position) == 0) return;
  field_ = std::make_shared<const ValueField>(scene_, position, grid, glance_,
                                              ways_to_clear(scene_, position, budget_.ways));
  plan_.simulated_shots += field_->simulated_shots();
}

ShotOption ColourPlan::shown(const Position& position, const Weighed& rival, int runs) {
  const Call call = call_of(rival.prospect);
  ShotOption option = described(scene_, position, call);
  // Other draws than those that chose it: the winner of a race is flattered by its own.
  const auto tries = tries_of(scene_, position, call, budget_.shown_tries, plan_.seed + 0x0b5e55ed);
  add_tries(option, tries);
  double next = 0;
  for (const Try& one : tries) {
    if (succeeded(one)) next += field_->best_pot_of(scene_, one.leaves);
  }
  option.next_pot =
      option.landings.empty() ? 0 : next / static_cast<double>(option.landings.size());
  runs_ = runs_of(scene_, *field_, position, call, runs, plan_.seed, plan_.simulated_shots);
  option.clear = clear_chance(scene_, position, runs_);
  plan_.simulated_shots += budget_.shown_tries;
  return option;
}

bool another_idea(const Weighed& one, const Weighed& other) {
  return one.prospect.ball != other.prospect.ball || one.prospect.pocket != other.prospect.pocket;
}

/// Why the runner-up lost: the largest of its losses.
WhyLost why_lost(const ShotOption& best, const ShotOption& other) {
  const double pot = best.pot.value - other.pot.value;
  const auto fouls = [](const ShotOption& option) {
    return option.fates.in_off + option.fates.wrong_first + option.fates.black_early;
  };
  const double foul = fouls(other) - fouls(best);
  const double position = best.next_pot - other.next_pot;
  const double most = std::max({pot, foul, position});
  // The tries that are shown are not those that chose: they may favour the other by chance.
  if (other.clear.value >= best.clear.value) return WhyLost::too_close_to_call;
  constexpr double to_speak_of = 0.02;
  const bool apart = best.clear.low > other.clear.value && other.clear.high < best.clear.value;
  // What the pot does not account for, of a plan that breaks down later on.
  const double rest = best.clear.value - other.clear.value * best.pot.value / other.pot.value;
  if (apart && position < to_speak_of && rest > most) return WhyLost::worse_rest;
  if (most < to_speak_of) return WhyLost::too_close_to_call;
  if (most == pot) return WhyLost::harder_pot;
  return most == foul ? WhyLost::more_fouls : WhyLost::worse_position;
}

/// Worth more than all others: none takes its place.
Weighed ColourPlan::given(const Position& position, const FirstShot& first) const {
  return {.prospect = {.ball = first.ball,
                       .pocket = first.pocket,
                       .strike = first.strike,
                       .access = access(scene_, position, first.strike),
                       .leaves = after(position, play(scene_.field, position, first.strike))},
          .worth = std::numeric_limits<double>::infinity()};
}

bool ColourPlan::goes_on(const Position& position, const FirstShot& first) const {
  const Played as_meant = play(scene_.field, position, first.strike);
  const Verdict verdict = judge(scene_.task, as_meant.shot, as_meant.indices, position.present,
                                first.ball, first.pocket);
  return verdict == Verdict::goes_on || verdict == Verdict::cleared;
}

/// The place of a ball among those that a shot from here finds.
int in_shot(const Position& position, int ball) {
  return std::popcount(position.present & (bit(ball) - 1));
}

std::vector<int> in_shot(const Position& position, BallSet balls) {
  std::vector<int> list;
  for (int i = 0; i < static_cast<int>(position.at.size()); ++i) {
    if (has(balls, i)) list.push_back(in_shot(position, i));
  }
  return list;
}

Moment ColourPlan::moment(const Position& position, int ball) const {
  const BallSet stay = scene_.task.own & position.present & ~bit(ball);
  const bool black_waits = (scene_.task.black & position.present & ~bit(ball)) != 0;
  Moment moment{.key_ball = stay == 0 && black_waits, .goes_from = field_->goes_from(ball)};
  if (!takes_problem(moment)) return moment;
  double most = most_places;
  for (int i = 0; i < static_cast<int>(position.at.size()); ++i) {
    if (!has(stay, i) || field_->goes_from(i) < most) continue;
    most = field_->goes_from(i);
    moment.cover = in_shot(position, i);
  }
  return moment;
}

/// The shot to play and the best other idea. Where the value field holds both for about as good,
/// clearances played out decide, if they clearly favour the other.
PlannedShot ColourPlan::planned(const Position& position, const std::vector<Weighed>& rivals,
                                int runs) {
  constexpr double about_as_good = 0.75;
  const Weighed* best = &rivals.front();
  const bool was_given = std::isinf(best->worth);
  const auto idea = std::ranges::find_if(rivals, [&](const Weighed& rival) {
    return &rival != best && (was_given || another_idea(rival, *best));
  });
  PlannedShot shot{.before = layout_at(layout_, position, plan_.colour),
                   .best = shown(position, *best, runs)};
  const bool is_first = plan_.shots.empty();
  if (is_first) first_runs_ = runs_;
  if (idea != rivals.end() && (is_first || budget_.later_rivals)) {
    shot.runner_up = shown(position, *idea, runs);
    if (idea->worth > about_as_good * best->worth &&
        shot.runner_up->clear.low > shot.best.clear.value) {
      std::swap(shot.best, *shot.runner_up);
      if (is_first) first_runs_ = runs_;
      best = &*idea;
    }
    shot.why_lost = why_lost(shot.best, *shot.runner_up);
  }
  leaves_ = best->prospect.leaves;
  shot.moment = moment(position, best->prospect.ball);
  return shot;
}

std::optional<Plan> ColourPlan::run(Effort effort, const Stage& stage) {
  budget_ = budget_of(effort);
  plan_ = {.layout = layout_,
           .player = scene_.player,
           .colour = colour_,
           .effort = effort,
           .seed = stage.settings.seed};
  Position position = position_of(layout_);
  field_ = first_field_;
  refresh_field(position);
  first_field_ = field_;
  const BallSet all = scene_.task.own | scene_.task.black;
  const auto count = [](BallSet set) { return static_cast<double>(std::popcount(set)); };
  const double total = count(all & position.present);
  for (;;) {
    stage.report("weighing shots", 1 - count(all & position.present) / total);
    auto rivals =
        weigh_shots(scene_, *field_, position, plan_.seed, plan_.simulated_shots, budget_.care);
    const FirstShot* first =
        plan_.shots.empty() && stage.settings.first ? &*stage.settings.first : nullptr;
    if (first != nullptr) rivals.insert(rivals.begin(), given(position, *first));
    if (rivals.empty()) break;
    plan_.shots.push_back(
        planned(position, rivals, plan_.shots.empty() ? budget_.first_runs : budget_.later_runs));
    if (first != nullptr && !goes_on(position, *first)) break;
    const Position before = std::exchange(position, leaves_);
    const BallSet were_stuck = field_->stuck();
    plan_.complete = (all & position.present) == 0;
    if (plan_.complete) break;
    refresh_field(position);
    plan_.shots.back().moment.frees =
        in_shot(before, were_stuck & ~field_->stuck() & position.present);
  }
  stage.report("weighing shots", 1);
  if (plan_.shots.empty()) return std::nullopt;
  plan_.clear = plan_.shots.front().best.clear;
  return std::move(plan_);
}

std::optional<Bet> ColourPlan::bet(const Plan& plan) {
  const Position position = position_of(layout_);
  if (!opponent_) opponent_.emplace(layout_, scene_, position, glance_);
  // Each breaks down in several places.
  constexpr std::size_t most_runs = 30;
  const std::span runs(first_runs_.data(), std::min(most_runs, first_runs_.size()));
  return bet_of(scene_, position, *opponent_, first_field_->ways(), plan.clear.value, runs,
                plan.seed);
}

std::vector<ToPlay> colours_to_weigh(const Layout& layout, const std::optional<FirstShot>& first) {
  if (first) return {colour_played(layout, first->ball)};
  return colours_to_take(layout);
}

/// The best of the colours, each planned with this effort.
std::optional<Plan> best_colour(std::vector<ColourPlan>& colours, Effort effort,
                                const PlanSettings& settings, double from, double to) {
  const double share = (to - from) / static_cast<double>(colours.size());
  std::optional<Plan> best;
  std::vector<ColourChoice> weighed;
  long simulated = 0;
  for (std::size_t i = 0; i < colours.size(); ++i) {
    const Stage stage{.settings = settings,
                      .from = from + share * static_cast<double>(i),
                      .to = from + share * static_cast<double>(i + 1)};
    std::optional<Plan> plan = colours[i].run(effort, stage);
    weighed.push_back(
        {.colour = colours[i].colour(), .clear = plan ? plan->clear : Chance{.high = 0}});
    if (!plan) continue;
    simulated += plan->simulated_shots;
    if (!best || plan->clear.value > best->clear.value) best = std::move(plan);
  }
  if (!best) return std::nullopt;
  if (colours.size() > 1) best->weighed = std::move(weighed);
  best->simulated_shots = simulated;
  constexpr double clearly_worth_it = 0.6;
  if (effort != Effort::quick && best->clear.value < clearly_worth_it) {
    best->bet = std::ranges::find(colours, best->colour, &ColourPlan::colour)->bet(*best);
  }
  return best;
}

/// An effort, and where it ends in the whole work.
struct Pass {
  Effort effort{};
  double to = 1;
};

std::vector<Pass> passes_to(Effort effort) {
  switch (effort) {
    case Effort::quick:
      return {{Effort::quick}};
    case Effort::normal:
      return {{Effort::quick, 0.15}, {Effort::normal}};
    case Effort::deep:
      break;
  }
  return {{Effort::quick, 0.02}, {Effort::normal, 0.1}, {Effort::deep}};
}

}  // namespace

std::optional<Plan> plan_clearance(const Layout& layout, const Player& player,
                                   const PlanSettings& settings) {
  const ThreadLimit limit(settings.threads);
  const StopAfter stop(settings.stop, settings.seconds);
  const engine::Playfield field(layout.table);
  const auto glance = std::make_shared<const Glance>(field, player);
  std::vector<ColourPlan> colours;
  for (const ToPlay colour : colours_to_weigh(layout, settings.first)) {
    colours.emplace_back(layout, colour, player, field, glance);
  }
  const Effort wanted = settings.seconds ? Effort::deep : settings.effort;
  std::optional<Plan> best;
  double from = 0;
  for (const Pass& pass : passes_to(wanted)) {
    std::optional<Plan> plan;
    // However short the time, there is to be a plan.
    const bool ended = ran_unstopped(best ? stop.token() : settings.stop, [&] {
      plan = best_colour(colours, pass.effort, settings, from, pass.to);
    });
    if (!ended) break;
    if (!plan) return std::nullopt;
    best = std::move(plan);
    from = pass.to;
    if (settings.on_plan) settings.on_plan(*best);
  }
  if (best) best->partial = settings.stop.stop_requested() && best->effort != wanted;
  return best;
}

}  // namespace ahead::coach
