#include "engine/contact/nose_impact.h"

#include <algorithm>
#include <cmath>

namespace ahead::engine {
namespace {

Slips operator+(const Slips& a, const Slips& b) { return {a.nose + b.nose, a.bed + b.bed}; }
Slips operator-(const Slips& a, const Slips& b) { return {a.nose - b.nose, a.bed - b.bed}; }
Slips operator*(double s, const Slips& a) { return {s * a.nose, s * a.bed}; }

/// Friction at the two contacts, as an impulse or per unit of normal impulse.
struct Friction {
  Vec2 nose;
  Vec2 bed;
};

/// Which contacts stick. Decided once a step, so that the small residue of a numerical step is not
/// mistaken for slip.
struct Sticks {
  bool nose = false;
  bool bed = false;
};

/// A push at one contact moves the other's slip too: the ball turns about its centre. The numbers
/// are those of a ball with I = 2/5 m R^2 whose centre stays level.
struct Impact {
  double sin, cos;
  double mu_nose, mu_bed;
  double nose_up;       ///< slip up the nose by a unit push there
  double across_up;     ///< slip at the bed by a unit push up the nose, and the reverse
  double across_along;  ///< slip along the bed by a unit push along the nose, and the reverse
  double per_det_up = 0, per_det_along = 0;  ///< of the two pairs of equations
  /// The closing speed v.c is linear in the normal impulse, the slip up the nose and the slip into
  /// it at the bed.
  double closing_normal = 0, closing_up = 0, closing_in = 0;
};
constexpr double own = 3.5;  ///< slip by a unit push at the same contact, where nothing hinders it

/// Slip below which a contact counts as not slipping, as a share of the closing speed.
constexpr double stuck = 1e-5;
/// Slip that has no direction of its own.
constexpr double none = 1e-9;

Slips change_by(const Impact& hit, double normal, const Friction& f) {
  return {{own * f.nose.x + hit.across_along * f.bed.y,
           hit.sin * hit.cos * normal + hit.nose_up * f.nose.y + hit.across_up * f.bed.x},
          {-hit.cos * normal + hit.across_up * f.nose.y + own * f.bed.x,
           hit.across_along * f.nose.x + own * f.bed.y}};
}

/// The friction that stands behind a change of the slips: change_by() solved for it.
Friction friction_behind(const Impact& hit, double normal, const Slips& change) {
  const double up = change.nose.y - hit.sin * hit.cos * normal;
  const double in = change.bed.x + hit.cos * normal;
  return {{(own * change.nose.x - hit.across_along * change.bed.y) * hit.per_det_along,
           (own * up - hit.across_up * in) * hit.per_det_up},
          {(hit.nose_up * in - hit.across_up * up) * hit.per_det_up,
           (own * change.bed.y - hit.across_along * change.nose.x) * hit.per_det_along}};
}

/// Change of the closing speed v.c when the slips change by `change`.
double closing_change(const Impact& hit, double normal, const Slips& change) {
  return hit.closing_normal * normal + hit.closing_up * change.nose.y +
         hit.closing_in * change.bed.x;
}

Vec2 at_most(Vec2 f, double most) {
  const double size = norm(f);
  return size > most ? (most / size) * f : f;
}

/// The bed's push per unit of normal impulse: the nose presses down, and friction up the nose
/// lifts.
double bed_load(const Impact& hit, Vec2 nose) { return std::max(0.0, hit.sin - hit.cos * nose.y); }

/// Friction at the bed. It holds the lowest point still, as far as friction reaches, where that
/// does not slip.
Vec2 bed_friction(const Impact& hit, const Slips& now, Vec2 nose, bool sticks) {
  const double most = hit.mu_bed * bed_load(hit, nose);
  if (!sticks) return (-most / norm(now.bed)) * now.bed;
  return at_most({(hit.cos - hit.across_up * nose.y) / own, -hit.across_along * nose.x / own},
                 most);
}

/// Friction at a nose that does not slip: what keeps it still or, where friction cannot, the
/// largest friction, against the direction in which the slip begins.
Vec2 holding_friction(const Impact& hit, const Slips& now, bool bed_sticks) {
  if (!bed_sticks) {
    // The bed's load, and with it the bed's push, is linear in the push up the nose.
    const Vec2 drag = (hit.mu_bed / norm(now.bed)) * now.bed;
    const double up = hit.sin * (hit.across_up * drag.x - hit.cos) /
                      (hit.nose_up + hit.across_up * hit.cos * drag.x);
    const Vec2 f{hit.across_along * drag.y * (hit.sin - hit.cos * up) / own, up};
    if (norm(f) <= hit.mu_nose && hit.cos * up < hit.sin) return f;
  }
  // Else by pushing against the slip again and again, never beyond the reach of friction.
  constexpr int most_rounds = 200;  // a few dozen do
  Vec2 f{};
  for (int i = 0; i < most_rounds; ++i) {
    const Slips rate = change_by(hit, 1, {f, bed_friction(hit, now, f, bed_sticks)});
    const Vec2 next = at_most(f - rate.nose / own, hit.mu_nose);
    const double change = norm(next - f);
    f = next;
    if (change < 1e-12) break;
  }
  return f;
}

/// Where a contact sticks, or has no slip that would give friction its direction.
Friction friction_where_one_sticks(const Impact& hit, const Slips& now, Sticks sticks) {
  const bool bed_sticks = sticks.bed || norm(now.bed) < none;
  const bool nose_sticks = sticks.nose || norm(now.nose) < none;
  const Vec2 nose = nose_sticks ? holding_friction(hit, now, bed_sticks)
                                : (-hit.mu_nose / norm(now.nose)) * now.nose;
  return {nose, bed_friction(hit, now, nose, bed_sticks)};
}

/// Friction per unit of normal impulse.
inline Friction friction(const Impact& hit, const Slips& now, Sticks sticks) {
  const double nose_slip = norm(now.nose);
  const double bed_slip = norm(now.bed);
  if (sticks.nose || sticks.bed || nose_slip < none || bed_slip < none) [[unlikely]] {
    return friction_where_one_sticks(hit, now, sticks);
  }
  const Vec2 nose = (-hit.mu_nose / nose_slip) * now.nose;
  return {nose, (-hit.mu_bed * bed_load(hit, nose) / bed_slip) * now.bed};
}

inline Slips rate_of(const Impact& hit, const Slips& now, Sticks sticks) {
  return change_by(hit, 1, friction(hit, now, sticks));
}

/// A slip that turns may change by about this share of itself in one step, so that the turning of
/// its direction, which quickens as it dies, stays resolved.
constexpr double largest_turn = 0.25;
/// One that dies along its own line may lose this share: no step jumps over its stop.
constexpr double largest_loss = 0.75;
/// Sine of the angle between a slip and its change up to which it keeps its line.
constexpr double along_the_line = 0.01;
/// What an explicit step of fourth order bears of the turning rate 7/2 mu / slip: below 2.8.
constexpr double stable = 1.5;
/// Six steps to stop a ball that nothing but the nose acts on.
constexpr double longest = 1.0 / 6;

/// Longest step while the slip `slip` changes at the rate `change` under friction `mu`: friction by
/// itself changes a slip by 7/2 mu per unit of impulse. One that begins keeps the line on which it
/// begins; one that is all but dead may grow to what counts as slip, but not beyond.
double longest_step(Vec2 slip, Vec2 change, double mu) {
  const double size = norm(slip);
  const double rate = norm(change);
  if (size < none) return longest;
  if (size <= stuck) return stuck / rate;
  if (std::abs(cross(slip, change)) > along_the_line * size * rate) {
    return largest_turn * size / std::max(rate, own * mu);
  }
  const double bearable = stable * size / (own * mu);
  return dot(slip, change) > 0 ? bearable : std::min(bearable, largest_loss * size / rate);
}

/// The impact on its way, measured by the normal impulse.
class Course {
 public:
  Course(const Impact& hit, const Slips& first) : hit_(hit), first_(first), slips_(first) {
    look();
  }

  [[nodiscard]] double closing() const { return closing_; }
  [[nodiscard]] double slowing() const { return slowing_; }
  [[nodiscard]] double work() const { return work_; }
  [[nodiscard]] Impulses impulses() const {
    const Friction f = friction_behind(hit_, normal_, slips_ - first_);
    return {normal_, f.nose, f.bed};
  }

  /// Takes the step `wanted`, or the longest that keeps the impact resolved.
  void advance(double wanted) {
    double h = std::min({wanted, longest, longest_step(slips_.nose, rate_.nose, hit_.mu_nose),
                         longest_step(slips_.bed, rate_.bed, hit_.mu_bed * hit_.sin)});
    Slips after = runge_kutta(h);
    while (breaks_loose(after) && h > none) {
      h *= 0.5;
      after = runge_kutta(h);
    }
    slips_ = after;
    normal_ += h;
    const double closing = closing_;
    const double slowing = slowing_;
    look();
    // Hermite's rule, of fourth order like the step.
    work_ += h * (0.5 * (closing + closing_) + h * (slowing_ - slowing) / 12);
  }

 private:
  void look() {
    grip();
    rate_ = rate_of(hit_, slips_, sticks_);
    closing_ = 1 + closing_change(hit_, normal_, slips_ - first_);
    slowing_ = -closing_change(hit_, 1, rate_);
  }

  /// Contacts that hardly slip, and that friction can hold, have the last of their slip taken.
  void grip() {
    sticks_ = {norm(slips_.nose) <= stuck, norm(slips_.bed) <= stuck};
    if (!sticks_.nose && !sticks_.bed) return;
    constexpr double held = 1e-9;
    const Slips rate = rate_of(hit_, slips_, sticks_);
    Friction stop;
    if (sticks_.nose && norm(rate.nose) < held) {
      stop.nose = {-slips_.nose.x / own, -slips_.nose.y / hit_.nose_up};
    }
    if (sticks_.bed && norm(rate.bed) < held) stop.bed = -slips_.bed / own;
    slips_ = slips_ + change_by(hit_, 0, stop);
  }

  /// Classical fourth-order step.
  [[nodiscard]] Slips runge_kutta(double h) const {
    const Slips k2 = rate_of(hit_, slips_ + (0.5 * h) * rate_, sticks_);
    const Slips k3 = rate_of(hit_, slips_ + (0.5 * h) * k2, sticks_);
    const Slips k4 = rate_of(hit_, slips_ + h * k3, sticks_);
    return slips_ + (h / 6) * (rate_ + 2.0 * (k2 + k3) + k4);
  }

  /// Whether a contact that stuck has begun to slip during a step that took it as still.
  [[nodiscard]] bool breaks_loose(const Slips& after) const {
    return (sticks_.nose && norm(after.nose) > 2 * stuck) ||
           (sticks_.bed && norm(after.bed) > 2 * stuck);
  }

  const Impact& hit_;
  Slips first_;
  Slips slips_;
  Slips rate_;
  Sticks sticks_;
  double normal_ = 0;   ///< impulse so far
  double closing_ = 1;  ///< v.c
  double slowing_ = 0;  ///< its loss per unit of normal impulse
  double work_ = 0;     ///< integral of v.c
};

Impact impact(Tilt tilt, const Cushion& cushion, const Cloth& cloth) {
  Impact hit{.sin = tilt.sin,
             .cos = tilt.cos,
             .mu_nose = cushion.friction,
             .mu_bed = cloth.sliding,
             .nose_up = 2.5 + tilt.sin * tilt.sin,
             .across_up = 2.5 - tilt.sin,
             .across_along = 1 - 2.5 * tilt.sin};
  hit.per_det_up = 1 / (own * hit.nose_up - hit.across_up * hit.across_up);
  hit.per_det_along = 1 / (own * own - hit.across_along * hit.across_along);
  // From v.c = cos (-cos normal - sin f.nose.y + f.bed.x), with the friction of friction_behind().
  hit.closing_up = -hit.cos * hit.per_det_up * (own * hit.sin + hit.across_up);
  hit.closing_in = hit.cos * hit.per_det_up * (hit.nose_up + hit.sin * hit.across_up);
  hit.closing_normal = hit.cos * (hit.closing_in - hit.cos - hit.sin * hit.closing_up);
  return hit;
}

}  // namespace

Tilt nose_tilt(const Ball& ball, double nose_height_m) {
  const double sin = (nose_height_m - ball.radius_m) / ball.radius_m;
  return {sin, std::sqrt(1 - sin * sin)};
}

Slips slips_at_nose(const BallState& state, const Ball& ball, Vec2 toward, Tilt tilt) {
  const Vec2 along = left_of(toward);
  const Vec2 v{dot(plan(state.velocity), toward), dot(plan(state.velocity), along)};
  const Vec2 turn =
      ball.radius_m * Vec2{dot(plan(state.spin), toward), dot(plan(state.spin), along)};
  return {
      {v.y + ball.radius_m * state.spin.z * tilt.cos - turn.x * tilt.sin, -v.x * tilt.sin - turn.y},
      {v.x - turn.y, v.y + turn.x}};
}

Impulses nose_impulses(const Slips& first, Tilt tilt, const Cushion& cushion, const Cloth& cloth) {
  const Impact hit = impact(tilt, cushion, cloth);
  Course course(hit, first);
  constexpr int most_steps = 100000;  // never reached: some hundreds at the very worst

  // Compression: to v.c = 0, the last steps by Newton's rule.
  int steps = 0;
  while (course.closing() > 1e-5 && steps++ < most_steps) {
    course.advance(course.closing() / course.slowing());
  }
  // Restitution: until e^2 of the work has been given back.
  const double work = course.work();
  const double kept = (1 - cushion.restitution * cushion.restitution) * work;
  while (course.work() - kept > 1e-7 * work && steps++ < most_steps) {
    // Outward speed grows nearly evenly: owed = out h + slowing h^2 / 2.
    const double owed = course.work() - kept;
    const double out = -course.closing();
    course.advance(2 * owed / (out + std::sqrt(out * out + 2 * course.slowing() * owed)));
  }
  return course.impulses();
}

BallState pushed(const BallState& before, const Ball& ball, Vec2 toward, Tilt tilt,
                 const Impulses& impulses) {
  const auto& [normal, nose, bed] = impulses;
  const Vec2 along = left_of(toward);
  const double in = -tilt.cos * normal - tilt.sin * nose.y + bed.x;
  const double turn = 2.5 / ball.radius_m;
  BallState after = before;
  after.velocity += lift(in * toward + (nose.x + bed.y) * along);
  after.spin += turn * lift((bed.y - tilt.sin * nose.x) * toward - (nose.y + bed.x) * along,
                            tilt.cos * nose.x);
  return after;
}

}  // namespace ahead::engine
