#include "engine/contact/touching_group.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/contact/ball_ball.h"

namespace ahead::engine {
namespace {

/// A with a lone pair's restitution e: sqrt(5) sin B, (pi - 2B) tan B = -ln e.
double damping_factor(double restitution) {
  const double wanted = -std::log(restitution);
  double low = 0;
  double high = std::numbers::pi / 2;
  for (int i = 0; i < 60; ++i) {
    const double b = 0.5 * (low + high);
    ((std::numbers::pi - 2 * b) * std::tan(b) < wanted ? low : high) = b;
  }
  return std::sqrt(5.0) * std::sin(0.5 * (low + high));
}

double hertz_stiffness(const Ball& a, const Ball& b, const BallContact& contact) {
  const double modulus =
      contact.young_gpa * 1e9 / (2.0 * (1.0 - contact.poisson * contact.poisson));
  return (4.0 / 3.0) * modulus * std::sqrt(a.radius_m * b.radius_m / (a.radius_m + b.radius_m));
}

void find_contacts(std::vector<HertzContact>& contacts, std::span<const BallState> states,
                   std::span<const Ball> balls, const BallContact& contact) {
  contacts.clear();
  for (std::size_t i = 0; i < states.size(); ++i) {
    for (std::size_t j = i + 1; j < states.size(); ++j) {
      const Vec3 line = states[j].position - states[i].position;
      const double gap = norm(line) - balls[i].radius_m - balls[j].radius_m;
      if (gap >= group_gap_m) continue;
      contacts.push_back({.first = i,
                          .second = j,
                          .n = unit(line),
                          .reduced_kg = balls[i].mass_kg * balls[j].mass_kg /
                                        (balls[i].mass_kg + balls[j].mass_kg),
                          .stiffness = hertz_stiffness(balls[i], balls[j], contact),
                          .compression_m = std::min(0.0, -gap)});
    }
  }
}

double closing_speed(const HertzContact& c, std::span<const BallState> states) {
  return dot(states[c.first].velocity - states[c.second].velocity, c.n);
}

/// Force along the line of centres, N.
double normal_force(const HertzContact& c, double closing_mps, double damping) {
  if (c.compression_m <= 0) return 0;
  const double root = std::sqrt(c.compression_m);
  return std::max(0.0, c.stiffness * c.compression_m * root +
                           damping * std::sqrt(c.reduced_kg * c.stiffness * root) * closing_mps);
}

/// A contact of the pair lasts about 2.94 (m'^2 / (k^2 v))^(1/5) (Landau and Lifshitz).
double contact_time_s(const HertzContact& c, double closing_mps) {
  return 2.94 *
         std::pow(c.reduced_kg * c.reduced_kg / (c.stiffness * c.stiffness * closing_mps), 0.2);
}

constexpr int steps_a_contact = 180;
/// The force begins as steeply as d^0.25: the first steps are shorter, growing to full length.
constexpr int short_steps = 18;
/// A wave through a full rack takes a few contact times; this is far beyond it.
constexpr int most_steps = 400 * steps_a_contact;

/// Lets the forces of `at` act on `on` for `dt`; returns whether any contact carries force.
template <typename Moment>
bool push(Moment& on, const Moment& at, std::span<const Ball> balls, const BallContact& contact,
          double damping, double dt) {
  bool loaded = false;
  for (std::size_t i = 0; i < at.contacts.size(); ++i) {
    const HertzContact& c = at.contacts[i];
    const BallState& a = at.states[c.first];
    const BallState& b = at.states[c.second];
    const double closing = dot(a.velocity - b.velocity, c.n);
    on.contacts[i].compression_m += dt * closing;
    const double force = normal_force(c, closing, damping);
    if (force <= 0) continue;
    loaded = true;
    const Vec3 s = surface_slip(a, balls[c.first], b, balls[c.second], c.n);
    const double slip_mps = norm(s);
    on.contacts[i].largest_slip_mps = std::max(c.largest_slip_mps, slip_mps);
    Vec3 impulse = -(force * dt) * c.n;
    if (slip_mps > 0) {
      const double friction = ball_friction(contact, on.contacts[i].largest_slip_mps);
      const double drag = std::min(friction * force * dt, (2.0 / 7.0) * c.reduced_kg * slip_mps);
      impulse -= (drag / slip_mps) * s;
    }
    apply_impulse(on.states[c.first], balls[c.first], on.states[c.second], balls[c.second], c.n,
                  impulse);
  }
  return loaded;
}

}  // namespace

void TouchingGroup::resolve(std::span<BallState> states, std::span<const Ball> balls,
                            const BallContact& contact) {
  now_.states.assign(states.begin(), states.end());
  find_contacts(now_.contacts, states, balls, contact);
  double closing = 0;
  double dt = 1;
  for (const HertzContact& c : now_.contacts) closing = std::max(closing, closing_speed(c, states));
  for (const HertzContact& c : now_.contacts) {
    dt = std::min(dt, contact_time_s(c, std::max(closing, dead_contact_mps)) / steps_a_contact);
  }
  // A contact that is all but over gives nothing back (ball_ball.h).
  const double e = closing < dead_contact_mps ? 1e-6 : contact.restitution;
  const double damping = damping_factor(e);

  // Midpoint rule; it ends when no contact carries force any more.
  bool begun = false;
  for (int i = 0; i < most_steps; ++i) {
    half_ = now_;
    const double h = dt * std::min(1.0, (i + 1.0) / short_steps);
    push(half_, now_, balls, contact, damping, 0.5 * h);
    const bool loaded = push(now_, half_, balls, contact, damping, h);
    if (begun && !loaded) break;
    begun = begun || loaded;
  }
  std::ranges::copy(now_.states, states.begin());
}

}  // namespace ahead::engine
