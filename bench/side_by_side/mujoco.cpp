#include <mujoco/mujoco.h>

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <memory>
#include <numbers>
#include <string>

#include <fmt/format.h>

#include "bench/side_by_side/stepper.h"

// MuJoCo: contacts are springs and dampers. Restitution is no parameter; it is had from a spring
// that presses for one millisecond, with the damping that gives it back.
namespace ahead::bench {
namespace {

using engine::Vec2;
using engine::Vec3;

/// How long two bodies press on each other. Ball on ball takes 0.2 ms or so in truth; a softer
/// contact lets the engine take longer steps, and here a ball still sinks less than 1 mm at 3 m/s.
constexpr double contact_s = 1e-3;

/// Spring and damper, for each unit of mass, of a contact with this restitution: a damped
/// oscillation's ratio of speeds after half a period is exp(-damping * period / 4).
std::string spring(double restitution) {
  const double decay = restitution > 0 ? -std::log(restitution) / contact_s : 0;
  const double omega = std::numbers::pi / contact_s;
  const double stiffness = omega * omega + decay * decay;
  const double damping = restitution > 0 ? 2 * decay : 2 * omega;  // critical
  return fmt::format(R"(solref="{} {}" solimp="0.99 0.99 0.001")", -stiffness, -damping);
}

std::string pair(const std::string& first, const std::string& second, int dimensions,
                 double friction, double spin_m, double roll_m, double restitution) {
  return fmt::format(
      R"(<pair geom1="{}" geom2="{}" condim="{}" friction="{} {} {} {} {}" {}/>)", first, second,
      dimensions, friction, friction, spin_m, roll_m, roll_m, spring(restitution));
}

std::string model_of(const engine::Table& table) {
  constexpr std::size_t balls = 4;
  std::string bodies =
      R"(<geom name="bed" type="plane" size="5 5 1" contype="0" conaffinity="0"/>)";
  std::string pairs;
  std::vector<std::string> cushions;
  for (const Block& block : cushion_blocks(table)) {
    cushions.push_back(fmt::format("cushion{}", cushions.size()));
    bodies += fmt::format(
        R"(<geom name="{}" type="box" pos="{} {} {}" size="{} {} {}" contype="0" conaffinity="0"/>)",
        cushions.back(), block.centre.x, block.centre.y, block.centre.z, block.half.x, block.half.y,
        block.half.z);
  }
  for (std::size_t i = 0; i < balls; ++i) {
    const engine::Ball& ball = ball_at(table, i);
    const std::string name = fmt::format("ball{}", i);
    bodies += fmt::format(
        R"(<body><freejoint/><geom name="{}" type="sphere" size="{}" mass="{}" contype="0" conaffinity="0"/></body>)",
        name, ball.radius_m, ball.mass_kg);
    pairs += pair(name, "bed", 6, table.cloth.sliding, spin_torque_m(ball, table.cloth),
                  rolling_torque_m(ball, table.cloth), 0);
    for (const std::string& cushion : cushions) {
      pairs += pair(name, cushion, 3, table.cushion.friction, 0, 0, table.cushion.restitution);
    }
    for (std::size_t j = 0; j < i; ++j) {
      pairs += pair(fmt::format("ball{}", j), name, 3, table.ball_contact.friction_a, 0, 0,
                    table.ball_contact.restitution);
    }
  }
  return fmt::format(
      R"(<mujoco><option gravity="0 0 -{}" cone="elliptic" impratio="10"/>)"
      R"(<worldbody>{}</worldbody><contact>{}</contact></mujoco>)",
      engine::gravity_mps2, bodies, pairs);
}

std::shared_ptr<mjModel> compiled(const std::string& text) {
  constexpr const char* name = "table.xml";
  const auto files = std::make_unique<mjVFS>();
  mj_defaultVFS(files.get());
  mj_makeEmptyFileVFS(files.get(), name, static_cast<int>(text.size()));
  std::memcpy(files->filedata[mj_findFileVFS(files.get(), name)], text.data(), text.size());
  std::array<char, 1000> error{};
  std::shared_ptr<mjModel> model(mj_loadXML(name, files.get(), error.data(), error.size()),
                                 mj_deleteModel);
  mj_deleteVFS(files.get());
  if (!model) {
    std::fprintf(stderr, "MuJoCo does not take the table: %s\n", error.data());
    std::exit(1);
  }
  return model;
}

}  // namespace

Stepper mujoco_stepper(const engine::Table& table) {
  // Steps that are too long for the springs are among those tried; no file need tell of it.
  mju_user_warning = [](const char*) {};
  const std::shared_ptr<mjModel> model = compiled(model_of(table));
  const std::shared_ptr<mjData> data(mj_makeData(model.get()), mj_deleteData);
  return [table, model, data](std::span<const engine::BallState> balls, double step_s) {
    mjData& d = *data;
    mj_resetData(model.get(), &d);
    model->opt.timestep = step_s;
    const auto at = [](mjtNum* from, Vec3 v) {
      from[0] = v.x;
      from[1] = v.y;
      from[2] = v.z;
    };
    const auto vec3 = [](const mjtNum* v) { return Vec3{v[0], v[1], v[2]}; };
    // Seven numbers of place and six of motion a ball. Spin is in the ball's own frame, which starts
    // as the table's; only its length and, through the frame's axes, its direction would differ.
    for (std::size_t i = 0; i < balls.size(); ++i) {
      at(d.qpos + 7 * i, balls[i].position);
      at(d.qvel + 6 * i, balls[i].velocity);
      at(d.qvel + 6 * i + 3, balls[i].spin);
    }
    const auto all_still = [&] {
      for (std::size_t i = 0; i < balls.size(); ++i) {
        Vec3 spin;
        const Vec3 own = vec3(d.qvel + 6 * i + 3);
        mjtNum turned[3];
        const mjtNum in_own[3] = {own.x, own.y, own.z};
        mju_rotVecQuat(turned, in_own, d.qpos + 7 * i + 3);
        spin = vec3(turned);
        if (!is_still(vec3(d.qvel + 6 * i), spin, ball_at(table, i).radius_m)) return false;
      }
      return true;
    };
    for (double t_s = 0; t_s < longest_shot_s && !all_still(); t_s += step_s) {
      mj_step(model.get(), &d);
    }
    std::vector<Vec2> places;
    for (std::size_t i = 0; i < balls.size(); ++i) places.push_back(plan(vec3(d.qpos + 7 * i)));
    return places;
  };
}

}  // namespace ahead::bench
