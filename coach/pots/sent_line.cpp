#include "coach/pots/sent_line.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

namespace ahead::coach {
namespace {

/// How far a sent ball is inside everything that lets it drop: nothing may be negative.
using Inside = std::array<double, 5>;

Inside inside(const PotTest& test, const PotGates::Lane& lane, const Sent& sent) {
  const double slowest_mps = test.gates->speeds_mps.front();
  const auto gate = gate_at(*test.gates, lane, std::max(slowest_mps, sent.speed_mps));
  if (!gate) return {-1, -1, -1, -1, -1};
  const double off = half_turn(test.meant_rad + sent.direction_rad - gate->middle_rad());
  return {gate->half_width_rad() + off, gate->half_width_rad() - off, sent.speed_mps - slowest_mps,
          sent.cue_turn_rad - test.free.from_rad, test.free.to_rad - sent.cue_turn_rad};
}

/// Takes off from the stretch what is negative of a line that goes from `low` at its whole's
/// beginning to `high` at its end.
void keep_positive(Stretch& stretch, const Stretch& whole, double low, double high) {
  if (low >= 0 && high >= 0) return;
  if (low < 0 && high < 0) {
    stretch.to = stretch.from;
    return;
  }
  const double zero = whole.from + (whole.to - whole.from) * low / (low - high);
  if (low < 0) {
    stretch.from = std::max(stretch.from, zero);
  } else {
    stretch.to = std::min(stretch.to, zero);
  }
}

/// Where between a place that meets the ball and one that misses it the last is that meets it.
std::pair<double, std::optional<Sent>> edge_between(const SentBall& ball, const ErrorLine& line,
                                                    double meets, double misses) {
  std::optional<Sent> last;
  constexpr int halvings = 5;
  for (int i = 0; i < halvings; ++i) {
    const double middle = 0.5 * (meets + misses);
    const auto sent = ball.sent(line.at(middle));
    (sent ? meets : misses) = middle;
    if (sent) last = sent;
  }
  return {meets, last};
}

bool passes(const PotTest& test, const PotGates::Lane& lane, const Sent& sent) {
  return std::ranges::all_of(inside(test, lane, sent), [](double part) { return part >= 0; });
}

}  // namespace

bool passes(const PotTest& test, const Sent& sent) {
  return passes(test, test.gates->gates, sent) ||
         std::ranges::any_of(test.gates->beside,
                             [&](const PotGates::Lane& lane) { return passes(test, lane, sent); });
}

SentLine::SentLine(const SentBall& ball, const ErrorLine& line, std::span<const double> nodes) {
  add(ball, line, nodes.subspan(1, nodes.size() - 2));
  add_ends(nodes);
}

Sent SentLine::between(const SentAt& a, const SentAt& b, double error) {
  const double part = (error - a.error) / (b.error - a.error);
  return {.direction_rad = std::lerp(a.sent.direction_rad, b.sent.direction_rad, part),
          .speed_mps = std::lerp(a.sent.speed_mps, b.sent.speed_mps, part),
          .cue_turn_rad = std::lerp(a.sent.cue_turn_rad, b.sent.cue_turn_rad, part)};
}

void SentLine::add(const SentBall& ball, const ErrorLine& line, std::span<const double> nodes) {
  const auto add_edge = [&](double meets, double misses, bool joined) {
    const auto [error, sent] = edge_between(ball, line, meets, misses);
    if (sent) points_.push_back({.error = error, .sent = *sent, .joined = joined});
    return sent.has_value();
  };
  bool met = false;  // at the node before
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    const auto sent = ball.sent(line.at(nodes[i]));
    if (!sent) {
      if (met) add_edge(nodes[i - 1], nodes[i], true);
    } else {
      const bool joined = met || (i > 0 && add_edge(nodes[i], nodes[i - 1], false));
      points_.push_back({.error = nodes[i], .sent = *sent, .joined = joined});
    }
    met = sent.has_value();
  }
}

void SentLine::add_ends(std::span<const double> nodes) {
  const std::size_t size = points_.size();
  if (size < 2) return;
  const SentAt& last = points_[size - 1];
  if (last.error == nodes[nodes.size() - 2] && last.joined) {
    SentAt end{.error = nodes.back(),
               .sent = between(points_[size - 2], last, nodes.back()),
               .joined = true};
    end.sent.speed_mps = last.sent.speed_mps;
    points_.push_back(end);
  }
  if (points_[0].error == nodes[1] && points_[1].joined) {
    SentAt end{.error = nodes.front(), .sent = between(points_[0], points_[1], nodes.front())};
    end.sent.speed_mps = points_[0].sent.speed_mps;
    points_[0].joined = true;
    points_.insert(points_.begin(), end);
  }
}

Sent SentLine::at(double sigmas) const {
  const auto above = std::ranges::upper_bound(points_, sigmas, {}, &SentAt::error);
  if (above == points_.begin()) return points_.front().sent;
  if (above == points_.end()) return points_.back().sent;
  return between(*(above - 1), *above, sigmas);
}

double SentLine::dropping(const PotTest& test, const Stretch& holding, const Shift& shift) const {
  double share = dropping(test, test.gates->gates, holding, shift);
  for (const PotGates::Lane& lane : test.gates->beside) {
    share += dropping(test, lane, holding, shift);
  }
  return share;
}

double SentLine::dropping(const PotTest& test, const PotGates::Lane& lane, const Stretch& holding,
                          const Shift& shift) const {
  double share = 0;
  Inside before{};
  // Most stretches begin where the one before ended.
  double end = -std::numeric_limits<double>::infinity();
  double below_end = 0;
  for (std::size_t i = 0; i < points_.size(); ++i) {
    Sent sent = points_[i].sent;
    sent.speed_mps *= shift.faster;
    const Inside now = inside(test, lane, sent);
    if (points_[i].joined) {
      const Stretch whole{points_[i - 1].error - shift.moved, points_[i].error - shift.moved};
      Stretch stretch{std::max(whole.from, holding.from), std::min(whole.to, holding.to)};
      for (std::size_t k = 0; k < now.size(); ++k) {
        keep_positive(stretch, whole, before[k], now[k]);
      }
      if (stretch.to > stretch.from) {
        const double below_from = stretch.from == end ? below_end : normal_below(stretch.from);
        end = stretch.to;
        below_end = normal_below(end);
        share += below_end - below_from;
      }
    }
    before = now;
  }
  return share;
}

}  // namespace ahead::coach
