#include "engine/contact/cushion.h"

#include <algorithm>
#include <cmath>

#include "engine/contact/ball_ball.h"

namespace ahead::engine {
namespace {

/// The ball during the impact: velocity, and spin times radius, both m/s.
struct Moving {
  Vec3 v;
  Vec3 turn;
};

Moving operator+(const Moving& a, const Moving& b) { return {a.v + b.v, a.turn + b.turn}; }
Moving operator*(double s, const Moving& a) { return {s * a.v, s * a.turn}; }

/// What never changes during one impact. Impulses are per unit mass.
struct Impact {
  Vec3 c;       ///< from the centre to the nose
  Vec3 e1, e2;  ///< span the plane square to c
  bool on_bed = false;
  double mu_nose = 0;
  double mu_bed = 0;
  double stuck = 0;  ///< slip below which a contact counts as not slipping, m/s
};

Vec3 nose_slip(const Impact& hit, const Moving& ball) {
  return tangential(ball.v + cross(ball.turn, hit.c), hit.c);
}

Vec2 bed_slip(const Moving& ball) { return {ball.v.x - ball.turn.y, ball.v.y + ball.turn.x}; }

/// Which contacts do not slip. Decided once a step, so that the small residue of a numerical step
/// is not mistaken for slip.
struct Still {
  bool nose = false;
  bool bed = false;
};

/// Friction at the bed under the normal impulse `bed_normal`; `without` is the rate that the rest
/// of the impact gives. Holds the lowest point still as far as friction reaches when it does not
/// slip, else acts against the slip.
Vec2 bed_friction(const Impact& hit, const Moving& ball, const Moving& without, double bed_normal,
                  Still still) {
  const double most = hit.mu_bed * bed_normal;
  if (!still.bed) return -most * unit(bed_slip(ball));
  const Vec2 hold = (-2.0 / 7.0) * bed_slip(without);
  const double need = norm(hold);
  return need > most ? (most / need) * hold : hold;
}

/// Rate of change per unit of normal impulse when the nose's friction is `f` (square to c).
Moving rate_with(const Impact& hit, const Moving& ball, Vec3 f, Still still) {
  const Vec3 push = f - hit.c;
  Moving rate{push, 2.5 * cross(hit.c, f)};
  if (!hit.on_bed) return rate;
  rate.v.z = 0;
  const Vec3 drag = lift(bed_friction(hit, ball, rate, std::max(0.0, -push.z), still));
  rate.v += drag;
  rate.turn += 2.5 * cross(Vec3{0, 0, -1}, drag);
  return rate;
}

/// Friction at the nose that would keep its contact still, if the slip answers linearly and
/// friction is not limited.
Vec3 balancing_friction(const Impact& hit, const Moving& ball, Still still) {
  const auto slip_rate = [&](Vec3 f) {
    const Vec3 s = nose_slip(hit, rate_with(hit, ball, f, still));
    return Vec2{dot(s, hit.e1), dot(s, hit.e2)};
  };
  const Vec2 free = slip_rate({});
  const double probe = 0.1 * hit.mu_nose;
  const Vec2 by_e1 = slip_rate(probe * hit.e1) - free;
  const Vec2 by_e2 = slip_rate(probe * hit.e2) - free;
  const double det = cross(by_e1, by_e2);
  if (det == 0) return {};
  return probe * ((-cross(free, by_e2) / det) * hit.e1 + (-cross(by_e1, free) / det) * hit.e2);
}

/// Friction at the nose of a contact that does not slip: what keeps it still or, where friction
/// cannot, the largest friction, against the direction in which the slip begins. The bed may lose
/// its load on the way, and the answer its linearity: then by pushing against the slip again and
/// again, never beyond the reach of friction.
Vec3 holding_friction(const Impact& hit, const Moving& ball, Still still) {
  const auto slip_rate = [&](Vec3 f) { return nose_slip(hit, rate_with(hit, ball, f, still)); };
  const auto reached = [&](Vec3 f) {
    const double size = norm(f);
    return size > hit.mu_nose ? (hit.mu_nose / size) * f : f;
  };
  const Vec3 balance = balancing_friction(hit, ball, still);
  if (norm(balance) <= hit.mu_nose && norm(slip_rate(balance)) < 1e-12) return balance;

  constexpr int most_rounds = 200;  // a few dozen do
  Vec3 f = reached(balance);
  for (int i = 0; i < most_rounds; ++i) {
    const Vec3 next = reached(f - (2.0 / 7.0) * slip_rate(f));
    const double change = norm(next - f);
    f = next;
    if (change < 1e-12) break;
  }
  return f;
}

Moving rate_of_change(const Impact& hit, const Moving& ball, Still still) {
  const Vec3 f =
      still.nose ? holding_friction(hit, ball, still) : -hit.mu_nose * unit(nose_slip(hit, ball));
  return rate_with(hit, ball, f, still);
}

Still still_contacts(const Impact& hit, const Moving& ball) {
  return {.nose = norm(nose_slip(hit, ball)) <= hit.stuck,
          .bed = hit.on_bed && norm(bed_slip(ball)) <= hit.stuck};
}

/// The ball after friction has taken the last of the slip at the still contacts that it can hold.
Moving gripped(const Impact& hit, Moving ball, Still still) {
  if (!still.nose && !still.bed) return ball;
  const Moving rate = rate_of_change(hit, ball, still);
  constexpr double held = 1e-9;
  if (still.nose && norm(nose_slip(hit, rate)) < held) {
    const Vec3 stop = (-2.0 / 7.0) * nose_slip(hit, ball);
    ball.v += stop;
    if (hit.on_bed) ball.v.z = 0;
    ball.turn += 2.5 * cross(hit.c, stop);
  }
  if (still.bed && norm(bed_slip(rate)) < held) {
    const Vec3 stop = lift((-2.0 / 7.0) * bed_slip(ball));
    ball.v += stop;
    ball.turn += 2.5 * cross(Vec3{0, 0, -1}, stop);
  }
  return ball;
}

struct Step {
  Moving after;
  double work = 0;  ///< integral of v.c over the step
};

/// Classical fourth-order Runge-Kutta step in the normal impulse.
Step runge_kutta(const Impact& hit, const Moving& ball, const Moving& k1, Still still, double h) {
  const Moving at2 = ball + 0.5 * h * k1;
  const Moving k2 = rate_of_change(hit, at2, still);
  const Moving at3 = ball + 0.5 * h * k2;
  const Moving k3 = rate_of_change(hit, at3, still);
  const Moving at4 = ball + h * k3;
  const Moving k4 = rate_of_change(hit, at4, still);
  return {ball + (h / 6) * (k1 + 2.0 * k2 + 2.0 * k3 + k4),
          (h / 6) * (dot(ball.v, hit.c) + 2 * dot(at2.v, hit.c) + 2 * dot(at3.v, hit.c) +
                     dot(at4.v, hit.c))};
}

/// Whether a contact that was still has begun to slip during a step that took it as still.
bool breaks_loose(const Impact& hit, const Moving& after, Still still) {
  return (still.nose && norm(nose_slip(hit, after)) > 2 * hit.stuck) ||
         (still.bed && norm(bed_slip(after)) > 2 * hit.stuck);
}

/// A slip that turns may change by about this share of itself in one step, so that the turning of
/// its direction, which quickens as it dies, stays resolved.
constexpr double largest_turn = 0.5;
/// One that dies along its own line may lose this share: no step jumps over its stop.
constexpr double largest_loss = 0.75;
/// Sine of the angle between a slip and its change up to which it keeps its line.
constexpr double along_the_line = 0.01;
/// What an explicit step of fourth order bears of the turning rate 7/2 mu / slip: below 2.8.
constexpr double stable = 1.5;

/// Longest step while the slip `slip` changes at the rate `change` under friction `mu`: friction by
/// itself changes a slip by 7/2 mu per unit of impulse. Where there is none, and friction cannot
/// hold the contact, a new slip may grow to what counts as slip, but not beyond.
double longest_step(const Impact& hit, Vec3 slip, Vec3 change, double mu) {
  const double size = norm(slip);
  const double rate = norm(change);
  if (size <= hit.stuck) return hit.stuck / rate;
  if (norm(cross(slip, change)) > along_the_line * size * rate) {
    return largest_turn * size / std::max(rate, 3.5 * mu);
  }
  const double bearable = stable * size / (3.5 * mu);
  return dot(slip, change) > 0 ? bearable : std::min(bearable, largest_loss * size / rate);
}

}  // namespace

double nose_reach_m(const Ball& ball, double nose_height_m) {
  const double up = (nose_height_m - ball.radius_m) / ball.radius_m;
  return ball.radius_m * std::sqrt(1.0 - up * up);
}

BallState rebounded(const BallState& before, const Ball& ball, Vec3 to_nose, Support support,
                    const Cushion& cushion, const Cloth& cloth) {
  const Vec3 c = to_nose;
  const double closing = dot(before.velocity, c);
  const Vec3 level = std::abs(c.z) < 0.9 ? unit(cross(Vec3{0, 0, 1}, c)) : Vec3{1, 0, 0};
  const Vec3 e1 = unit(tangential(level, c));
  const Impact hit{.c = c,
                   .e1 = e1,
                   .e2 = cross(c, e1),
                   .on_bed = support == Support::bed,
                   .mu_nose = cushion.friction,
                   .mu_bed = cloth.sliding,
                   .stuck = 5e-5 * closing};
  // Six steps to stop a ball that nothing but the nose acts on.
  const double h_max = closing / 6;

  Moving ball_now{before.velocity, ball.radius_m * before.spin};
  const auto step_towards = [&](double wanted, const Moving& rate, Still still) {
    double h =
        std::min({wanted, h_max,
                  longest_step(hit, nose_slip(hit, ball_now), nose_slip(hit, rate), hit.mu_nose)});
    if (hit.on_bed) {
      h = std::min(h, longest_step(hit, lift(bed_slip(ball_now)), lift(bed_slip(rate)),
                                   hit.mu_bed * hit.c.z));
    }
    Step step = runge_kutta(hit, ball_now, rate, still, h);
    while (breaks_loose(hit, step.after, still) && h > 1e-9 * closing) {
      h *= 0.5;
      step = runge_kutta(hit, ball_now, rate, still, h);
    }
    ball_now = step.after;
    return step.work;
  };

  constexpr int most_steps = 100000;  // never reached: some hundreds at the very worst

  // Compression: to v.c = 0, the last steps by Newton's rule.
  double work = 0;
  for (int i = 0; i < most_steps; ++i) {
    const double in = dot(ball_now.v, c);
    if (in <= 1e-8 * closing) break;
    const Still still = still_contacts(hit, ball_now);
    ball_now = gripped(hit, ball_now, still);
    const Moving rate = rate_of_change(hit, ball_now, still);
    work += step_towards(in / -dot(rate.v, c), rate, still);
  }
  // Restitution: until e^2 of the work has been given back.
  const double e = closing < dead_contact_mps ? 0.0 : cushion.restitution;
  double owed = e * e * work;
  const double done = 1e-8 * work;
  for (int i = 0; i < most_steps && owed > done; ++i) {
    const Still still = still_contacts(hit, ball_now);
    ball_now = gripped(hit, ball_now, still);
    const Moving rate = rate_of_change(hit, ball_now, still);
    // Outward speed grows nearly evenly: owed = out h + q h^2 / 2.
    const double out = -dot(ball_now.v, c);
    const double q = -dot(rate.v, c);
    owed += step_towards(2 * owed / (out + std::sqrt(out * out + 2 * q * owed)), rate, still);
  }
  BallState after = before;
  after.velocity = ball_now.v;
  after.spin = ball_now.turn / ball.radius_m;
  return after;
}

}  // namespace ahead::engine
