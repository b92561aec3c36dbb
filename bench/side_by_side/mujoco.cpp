#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <numbers>
#include <string>

#include <fmt/format.h>
#include <mujoco/mujoco.h>

#include "bench/side_by_side/stepper.h"

// MuJoCo: contacts are springs and dampers. Restitution is no parameter; it is had from a spring
// of which half an oscillation leaves so much of the speed.
namespace ahead::bench {
namespace {

using engine::Vec2;
using engine::Vec3;

/// How long balls and cushions press on each other. Ball on ball takes 0.2 ms or so in truth; a
/// softer contact lets the engine take longer steps, to its favour here. A ball then sinks 1.3 mm
/// at 1 m/s.
constexpr double contact_s = 4e-3;

/// The bed's spring is softer yet, and not damped out: friction and load are one problem here, and
/// a ball that slides over a bed with more damping hops. At rest a ball sinks 0.1 mm.
constexpr double bed_contact_s = 10e-3;
constexpr double bed_restitution = 0.5;

/// Spring and damper, for each unit of mass, of a contact that lasts for `lasts_s`: half a period
/// of an oscillation that leaves so much of the speed.
std::string spring(double restitution, double lasts_s) {
  const double decay = -std::log(restitution) / lasts_s;
  const double omega = std::numbers::pi / lasts_s;
  return fmt::format(R"(solref="{} {}" solimp="0.99 0.99 0.001")", -(omega * omega + decay * decay),
                     -2 * decay);
}

std::string pair(const std::string& first, const std::string& second, double friction,
                 double restitution) {
  return fmt::format(R"(<pair geom1="{}" geom2="{}" condim="3" friction="{} {} 0 0 0" {}/>)", first,
                     second, friction, friction, spring(restitution, contact_s));
}

std::string pair_on_bed(const std::string& name, const engine::Ball& ball,
                        const engine::Cloth& cloth) {
  const double roll_m = rolling_torque_m(ball, cloth);
  return fmt::format(R"(<pair geom1="{}" geom2="bed" condim="6" friction="{} {} {} {} {}" {}/>)",
                     name, cloth.sliding, cloth.sliding, spin_torque_m(ball, cloth), roll_m, roll_m,
                     spring(bed_restitution, bed_contact_s));
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
    pairs += pair_on_bed(name, ball, table.cloth);
    for (const std::string& cushion : cushions) {
      pairs += pair(name, cushion, table.cushion.friction, table.cushion.restitution);
    }
    for (std::size_t j = 0; j < i; ++j) {
      pairs += pair(fmt::format("ball{}", j), name, table.ball_contact.friction_a,
                    table.ball_contact.restitution);
    }
  }
  return fmt::format(R"(<mujoco><option gravity="0 0 -{}" cone="elliptic" impratio="10"/>)"
                     R"(<worldbody>{}</worldbody><contact>{}</contact></mujoco>)",
                     engine::gravity_mps2, bodies, pairs);
}

std::shared_ptr<mjModel> compiled(const std::string& text) {
  constexpr const char* name = "table.xml";
  const auto files = std::make_unique<mjVFS>();
  mj_defaultVFS(files.get());
  mj_makeEmptyFileVFS(files.get(), name, static_cast<int>(text.size()));
  std::ranges::copy(text, static_cast<char*>(files->filedata[mj_findFileVFS(files.get(), name)]));
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
    // Seven numbers of place and six of motion a ball. Spin is in the ball's own frame, which
    // starts as the table's; only its length and, through the frame's axes, its direction would
    // differ.
    for (std::size_t i = 0; i < balls.size(); ++i) {
      at(d.qpos + 7 * i, balls[i].position);
      at(d.qvel + 6 * i, balls[i].velocity);
      at(d.qvel + 6 * i + 3, balls[i].spin);
    }
    const auto all_still = [&] {
      for (std::size_t i = 0; i < balls.size(); ++i) {
        std::array<mjtNum, 3> spin{};
        mju_rotVecQuat(spin.data(), d.qvel + 6 * i + 3, d.qpos + 7 * i + 3);
        if (!is_still(vec3(d.qvel + 6 * i), vec3(spin.data()), ball_at(table, i).radius_m))
          return false;
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
