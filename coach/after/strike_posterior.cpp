#include "coach/after/strike_posterior.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <span>

#include <tbb/enumerable_thread_specific.h>
#include <tbb/parallel_for.h>

#include "coach/after/proposal.h"
#include "engine/simulate/simulate.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

/// Slips a round; when the search fails at that, once more with the larger number.
constexpr std::size_t round_size = 3000;
constexpr std::size_t large_round_size = 12'000;
/// Fewer effective samples than this, or no explanation, and the search is taken to have failed.
constexpr double too_few_samples = 400;
/// A round is tightened as far as this share of it still counts.
constexpr double kept_share = 0.1;
constexpr double first_widen = 100;
constexpr int most_rounds = 24;
/// Rounds at full tightness are counted together: at least so many, and on until so many samples
/// are effective.
constexpr int least_full_rounds = 3;
constexpr int most_full_rounds = 10;
constexpr double enough_samples = 1500;

/// The errors as means and sigmas, in the order of Part.
struct Prior {
  std::array<double, part_count> mean{};
  std::array<double, part_count> sigma{};
};

Prior prior_of(const Player& player, const Call& call) {
  const Slip sigma = sigmas(player, circumstances(call));
  return {.mean = {player.direction_rad.bias, player.pace.bias, player.tip_height_m.bias,
                   player.tip_side_m.bias, player.elevation_rad.bias},
          .sigma = {sigma.direction_rad, sigma.pace, sigma.tip_height_m, sigma.tip_side_m,
                    sigma.elevation_rad}};
}

/// A round of points with how each fits. Points are in the prior's own units: standard normal.
struct Round {
  std::vector<Point> points;
  std::vector<double> ratio;    ///< prior over proposal
  std::vector<Misfit> misfits;  ///< one a ball, point after point
  std::vector<bool> possible;   ///< no miscue
};

/// Rounds from several proposals, counted as one from their mixture: a point that one proposal
/// gave a great weight by chance is tamed by the others (Cornuet, Marin, Mira and Robert (2012),
/// Scand. J. Stat. 39, 798).
struct Pool {
  Round round;
  std::vector<Proposal> proposals;
  std::vector<double> density;  ///< summed over the proposals, one a point

  void add(const Proposal& proposal, const Round& fresh, std::size_t dimensions);
};

void Pool::add(const Proposal& proposal, const Round& fresh, std::size_t dimensions) {
  const std::size_t old = round.points.size();
  const auto append = [](auto& to, const auto& more) {
    to.insert(to.end(), more.begin(), more.end());
  };
  append(round.points, fresh.points);
  append(round.misfits, fresh.misfits);
  append(round.possible, fresh.possible);
  proposals.push_back(proposal);
  density.resize(round.points.size());
  round.ratio.resize(round.points.size());
  tbb::parallel_for(std::size_t{0}, density.size(), [&](std::size_t i) {
    const Point& point = round.points[i];
    if (i < old) {
      density[i] += proposal.density(point);
    } else {
      for (const Proposal& each : proposals) density[i] += each.density(point);
    }
    round.ratio[i] =
        standard_normal(point, dimensions) * static_cast<double>(proposals.size()) / density[i];
  });
}

class Search {
 public:
  Search(const Scene& scene, const Position& position, const Call& intended,
         const std::vector<SeenBall>& seen, std::uint64_t seed)
      : scene_(scene),
        intended_(intended),
        seen_(seen),
        seed_(seed),
        prior_(prior_of(scene.player, intended)),
        bed_m2_(scene.field.table().width_m * scene.field.table().length_m),
        simulations_([this] { return engine::Simulation(scene_.field); }) {
    for (std::size_t i = 0; i < position.at.size(); ++i) {
      if (!has(position.present, static_cast<int>(i))) continue;
      if (static_cast<int>(i) == intended.ball) target_ = places_.size();
      places_.push_back(position.at[i]);
      sigma_m_.push_back(scene.sigma_m[i]);
    }
    if (sigma_m_[0] > 0 || sigma_m_[target_] > 0) dimensions_ = part_count + 4;
  }

  /// Rounds of `size`.
  StrikePosterior run(std::size_t size);

 private:
  [[nodiscard]] Round played_round(const Proposal& proposal, std::size_t size);
  void play_point(const Point& point, std::span<Misfit> misfits, engine::Simulation& simulation,
                  bool& possible) const;
  [[nodiscard]] std::vector<double> weights(const Round& round, double widen) const;
  [[nodiscard]] double tightened(const Round& round, double widen) const;
  [[nodiscard]] Proposal fitted(const Round& round, double widen);
  [[nodiscard]] Slip slip_of(const Point& point) const;
  [[nodiscard]] StrikePosterior told(const Round& round) const;

  const Scene& scene_;
  const Call& intended_;
  const std::vector<SeenBall>& seen_;
  std::uint64_t seed_;
  Prior prior_;
  double bed_m2_;
  std::vector<Vec2> places_;
  std::vector<double> sigma_m_;
  std::size_t target_ = 0;
  std::size_t dimensions_ = part_count;
  mutable tbb::enumerable_thread_specific<engine::Simulation> simulations_;
  std::uint64_t rounds_ = 0;
  long simulated_shots_ = 0;
};

double effective(std::span<const double> weights) {
  double squares = 0;
  for (const double w : weights) squares += w * w;
  return squares > 0 ? 1 / squares : 0;
}

Slip Search::slip_of(const Point& point) const {
  const auto part = [&](Part which) {
    const auto i = static_cast<std::size_t>(which);
    return prior_.mean[i] + prior_.sigma[i] * point[i];
  };
  return {.direction_rad = part(Part::direction),
          .pace = part(Part::pace),
          .tip_height_m = part(Part::tip_height),
          .tip_side_m = part(Part::tip_side),
          .elevation_rad = part(Part::elevation)};
}

void Search::play_point(const Point& point, std::span<Misfit> misfits,
                        engine::Simulation& simulation, bool& possible) const {
  const engine::Table& table = scene_.field.table();
  std::vector<Vec2> from = places_;
  engine::Strike strike = intended_.strike;
  if (dimensions_ > part_count) {
    from[0] = from[0] + sigma_m_[0] * Vec2{point[5], point[6]};
    from[target_] = from[target_] + sigma_m_[target_] * Vec2{point[7], point[8]};
    strike.aim_rad += engine::angle_rad(from[target_] - from[0]) -
                      engine::angle_rad(places_[target_] - places_[0]);
  }
  strike = played(strike, slip_of(point), table);
  possible = !engine::miscues(strike, table.cue);
  if (possible) misfits_of(simulation.play(from, strike), from, seen_, misfits);
}

Round Search::played_round(const Proposal& proposal, std::size_t size) {
  const std::size_t balls = places_.size();
  Round round{.points = std::vector<Point>(size),
              .ratio = std::vector<double>(size),
              .misfits = std::vector<Misfit>(size * balls)};
  std::vector<char> possible(size);
  const std::uint64_t first = rounds_++ << 32U;
  tbb::parallel_for(std::size_t{0}, size, [&](std::size_t i) {
    Random random(seed_, first + i);
    round.points[i] = proposal.drawn(random);
    round.ratio[i] =
        standard_normal(round.points[i], dimensions_) / proposal.density(round.points[i]);
    bool can_be = false;
    play_point(round.points[i], std::span(round.misfits).subspan(i * balls, balls),
               simulations_.local(), can_be);
    possible[i] = can_be ? 1 : 0;
  });
  round.possible.assign(possible.begin(), possible.end());
  simulated_shots_ += static_cast<long>(size);
  return round;
}

/// They sum to 1, or are all 0 when every point miscues.
std::vector<double> Search::weights(const Round& round, double widen) const {
  const std::size_t balls = places_.size();
  std::vector<double> logs(round.points.size(), -INFINITY);
  for (std::size_t i = 0; i < logs.size(); ++i) {
    if (!round.possible[i]) continue;
    logs[i] = std::log(round.ratio[i]) +
              log_likelihood(std::span(round.misfits).subspan(i * balls, balls), bed_m2_, widen);
  }
  const double most = *std::ranges::max_element(logs);
  std::vector<double> weights(logs.size(), 0);
  if (!std::isfinite(most)) return weights;
  double sum = 0;
  for (std::size_t i = 0; i < logs.size(); ++i) sum += weights[i] = std::exp(logs[i] - most);
  for (double& w : weights) w /= sum;
  return weights;
}

/// The least widening from 1 to `widen` that leaves enough of the round counting.
double Search::tightened(const Round& round, double widen) const {
  const double enough = kept_share * static_cast<double>(round.points.size());
  if (effective(weights(round, 1)) >= enough) return 1;
  double low = 0;
  double high = std::log(widen);
  for (int i = 0; i < 12; ++i) {
    const double middle = 0.5 * (low + high);
    (effective(weights(round, std::exp(middle))) >= enough ? high : low) = middle;
  }
  // Never stand still: a multimodal round may never reach the share.
  return std::max(1.0, std::min(std::exp(high), 0.8 * widen));
}

Proposal Search::fitted(const Round& round, double widen) {
  Random random(seed_, (rounds_ << 32U) - 1);
  const std::vector<double> w = weights(round, widen);
  if (effective(w) == 0) return Proposal(dimensions_);
  return {dimensions_, round.points, w, random};
}

StrikePosterior Search::run(std::size_t size) {
  Proposal proposal(dimensions_);
  double widen = first_widen;
  int left = most_rounds;
  Round round = played_round(proposal, size);
  while (widen > 1 && left-- > 0) {
    widen = tightened(round, widen);
    proposal = fitted(round, widen);
    round = played_round(proposal, size);
  }
  Pool pool;
  for (int i = 1;; ++i) {
    pool.add(proposal, round, dimensions_);
    const bool enough = effective(weights(pool.round, 1)) >= enough_samples;
    if (i == most_full_rounds || (i >= least_full_rounds && enough)) return told(pool.round);
    proposal = fitted(pool.round, 1);
    round = played_round(proposal, size);
  }
}

/// The value below which `share` of the weight lies. `order` sorts `values`.
double quantile(std::span<const double> values, std::span<const double> weights,
                std::span<const std::size_t> order, double share) {
  double running = 0;
  for (const std::size_t i : order) {
    running += weights[i];
    if (running >= share) return values[i];
  }
  return values[order.back()];
}

/// Means, sigmas and correlations of the parts, weighted.
struct Moments {
  std::array<double, part_count> mean{};
  std::array<std::array<double, part_count>, part_count> covariance{};

  [[nodiscard]] double sigma(std::size_t i) const { return std::sqrt(covariance[i][i]); }
  [[nodiscard]] double correlation(std::size_t i, std::size_t j) const {
    return covariance[i][j] / (sigma(i) * sigma(j));
  }
};

using Slips = std::array<std::vector<double>, part_count>;

Moments moments_of(const Slips& slips, std::span<const double> weights) {
  Moments moments;
  for (std::size_t p = 0; p < part_count; ++p) {
    for (std::size_t i = 0; i < weights.size(); ++i) moments.mean[p] += weights[i] * slips[p][i];
  }
  for (std::size_t p = 0; p < part_count; ++p) {
    for (std::size_t q = 0; q <= p; ++q) {
      double sum = 0;
      for (std::size_t i = 0; i < weights.size(); ++i) {
        sum += weights[i] * (slips[p][i] - moments.mean[p]) * (slips[q][i] - moments.mean[q]);
      }
      moments.covariance[p][q] = moments.covariance[q][p] = sum;
    }
  }
  return moments;
}

/// Pairs of parts that the balls tie together while leaving each loose: a change of one is made up
/// for by a change of the other. What each would have been alone follows by regression.
std::vector<Tradeoff> tradeoffs_of(const Moments& moments, const Prior& prior) {
  constexpr double tied = 0.6;
  constexpr double loose = 0.3;  // of the prior's sigma
  std::vector<std::pair<double, Tradeoff>> found;
  for (std::size_t p = 0; p < part_count; ++p) {
    for (std::size_t q = p + 1; q < part_count; ++q) {
      if (moments.sigma(p) <= loose * prior.sigma[p]) continue;
      if (moments.sigma(q) <= loose * prior.sigma[q]) continue;
      const double strength = std::abs(moments.correlation(p, q));
      if (!(strength >= tied)) continue;
      const double c = moments.covariance[p][q];
      found.push_back(
          {strength,
           {.one = static_cast<Part>(p),
            .other = static_cast<Part>(q),
            .one_alone = moments.mean[p] - c / moments.covariance[q][q] * moments.mean[q],
            .other_alone = moments.mean[q] - c / moments.covariance[p][p] * moments.mean[p]}});
    }
  }
  std::ranges::stable_sort(found, std::ranges::greater{}, [](const auto& f) { return f.first; });
  std::vector<Tradeoff> tradeoffs;
  for (const auto& [strength, tradeoff] : found) tradeoffs.push_back(tradeoff);
  return tradeoffs;
}

StrikePosterior Search::told(const Round& round) const {
  const std::size_t balls = places_.size();
  const std::vector<double> w = weights(round, 1);
  StrikePosterior posterior{.effective_samples = effective(w), .simulated_shots = simulated_shots_};
  if (posterior.effective_samples == 0) return posterior;

  Slips slips;
  for (std::size_t p = 0; p < part_count; ++p) {
    for (const Point& point : round.points) {
      slips[p].push_back(prior_.mean[p] + prior_.sigma[p] * point[p]);
    }
  }
  const Moments moments = moments_of(slips, w);
  std::vector<std::size_t> order(w.size());
  for (std::size_t p = 0; p < part_count; ++p) {
    // NOLINTNEXTLINE(modernize-use-ranges): the compiler's library has no std::ranges::iota.
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::sort(order, {}, [&](std::size_t i) { return std::pair(slips[p][i], i); });
    posterior.parts[p] = {.low = quantile(slips[p], w, order, 0.05),
                          .best = quantile(slips[p], w, order, 0.5),
                          .high = quantile(slips[p], w, order, 0.95),
                          .prior_sigma = prior_.sigma[p],
                          .sigma = moments.sigma(p)};
    constexpr double as_before = 0.9;
    if (prior_.sigma[p] > 0 && moments.sigma(p) > as_before * prior_.sigma[p]) {
      posterior.untold.push_back(static_cast<Part>(p));
    }
  }
  posterior.tradeoffs = tradeoffs_of(moments, prior_);

  std::vector<double> strayed(balls, 0);
  double best = -INFINITY;
  for (std::size_t i = 0; i < w.size(); ++i) {
    if (!round.possible[i]) continue;
    const auto misfits = std::span(round.misfits).subspan(i * balls, balls);
    bool all_fit = true;
    for (std::size_t ball = 0; ball < balls; ++ball) {
      if (!is_stray(misfits[ball], bed_m2_)) continue;
      strayed[ball] += w[i];
      all_fit = false;
    }
    if (all_fit) posterior.explained += w[i];
    const double density =
        log_likelihood(misfits, bed_m2_) + std::log(standard_normal(round.points[i], dimensions_));
    if (density > best) {
      best = density;
      posterior.likeliest = slip_of(round.points[i]);
    }
  }
  for (std::size_t ball = 0; ball < balls; ++ball) {
    if (strayed[ball] > 0.5) posterior.strays.push_back(static_cast<int>(ball));
  }
  return posterior;
}

}  // namespace

bool is_explained(const StrikePosterior& posterior) { return posterior.explained >= 0.5; }

StrikePosterior strike_posterior(const Scene& scene, const Position& position, const Call& intended,
                                 const std::vector<SeenBall>& seen, std::uint64_t seed) {
  Search search(scene, position, intended, seen, seed);
  StrikePosterior posterior = search.run(round_size);
  if (!is_explained(posterior) || posterior.effective_samples < too_few_samples) {
    posterior = search.run(large_round_size);
  }
  return posterior;
}

}  // namespace ahead::coach
