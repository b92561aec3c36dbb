#include <algorithm>
#include <deque>

#include <btBulletDynamicsCommon.h>

#include "bench/side_by_side/stepper.h"

// Bullet: a fixed number of sweeps over each step's contacts; friction, restitution and rolling
// resistance are set as each contact appears. The double-precision library.
namespace ahead::bench {
namespace {

using engine::Vec2;
using engine::Vec3;

Vec3 vec3(const btVector3& v) { return {v.x(), v.y(), v.z()}; }
btVector3 bt(Vec3 v) { return {v.x, v.y, v.z}; }

enum Kind { ball, bed, cushion };

/// A contact counts from this share of a ball's radius before the touch. The engine's own 0.02
/// makes rebounds dull: restitution is then reckoned before the ball is there.
constexpr double early_contact = 1e-7;

/// The engine's own 10 leave cushion and bed, which press on a ball together, undecided.
constexpr int sweeps = 50;

/// Balls may sink so far into the bed, so that they do not lose touch with it now and then.
constexpr double slop_m = 1e-9;

/// What on_contact() reads; the engine hands it nothing of ours.
const engine::Table* table_of_contacts = nullptr;

bool on_contact(btManifoldPoint& point, const btCollisionObjectWrapper* first, int, int,
                const btCollisionObjectWrapper* second, int, int) {
  const engine::Table& table = *table_of_contacts;
  const auto* a = first->getCollisionObject();
  const auto* b = second->getCollisionObject();
  switch (std::max(a->getUserIndex(), b->getUserIndex())) {
    case Kind::ball:
      point.m_combinedFriction = table.ball_contact.friction_a;
      point.m_combinedRestitution = table.ball_contact.restitution;
      break;
    case Kind::cushion:
      point.m_combinedFriction = table.cushion.friction;
      point.m_combinedRestitution = table.cushion.restitution;
      break;
    default: {
      const auto* on_bed = a->getUserIndex() == Kind::ball ? a : b;
      const auto& which = ball_at(table, static_cast<std::size_t>(on_bed->getUserIndex2()));
      point.m_combinedFriction = table.cloth.sliding;
      point.m_combinedRestitution = 0;
      // Without a rolling friction, torsion at the contact is switched off altogether.
      point.m_combinedRollingFriction = 1e-12;
      point.m_combinedSpinningFriction = spin_torque_m(which, table.cloth);
    }
  }
  return true;
}

class BulletTable {
 public:
  BulletTable(const engine::Table& table, std::span<const engine::BallState> balls);
  ~BulletTable();
  BulletTable(const BulletTable&) = delete;
  BulletTable& operator=(const BulletTable&) = delete;

  void step(double step_s);
  [[nodiscard]] bool all_still() const;
  [[nodiscard]] std::vector<Vec2> places() const;

 private:
  btRigidBody& add(btCollisionShape& shape, double mass_kg, Vec3 at, Kind kind);

  const engine::Table& table_;
  btDefaultCollisionConfiguration configuration_;
  btCollisionDispatcher dispatcher_{&configuration_};
  btDbvtBroadphase broadphase_;
  btSequentialImpulseConstraintSolver solver_;
  btDiscreteDynamicsWorld world_{&dispatcher_, &broadphase_, &solver_, &configuration_};
  btStaticPlaneShape plane_{{0, 0, 1}, 0};
  std::deque<btBoxShape> boxes_;
  std::deque<btSphereShape> spheres_;
  std::deque<btRigidBody> bodies_;
  std::vector<btRigidBody*> balls_;
};

btRigidBody& BulletTable::add(btCollisionShape& shape, double mass_kg, Vec3 at, Kind kind) {
  btVector3 inertia(0, 0, 0);
  if (mass_kg > 0) shape.calculateLocalInertia(mass_kg, inertia);
  btRigidBody& body = bodies_.emplace_back(
      btRigidBody::btRigidBodyConstructionInfo(mass_kg, nullptr, &shape, inertia));
  body.setWorldTransform(btTransform(btQuaternion::getIdentity(), bt(at)));
  body.setUserIndex(kind);
  body.setCollisionFlags(body.getCollisionFlags() | btCollisionObject::CF_CUSTOM_MATERIAL_CALLBACK);
  world_.addRigidBody(&body);
  return body;
}

BulletTable::BulletTable(const engine::Table& table, std::span<const engine::BallState> balls)
    : table_(table) {
  world_.setGravity({0, 0, -engine::gravity_mps2});
  world_.getSolverInfo().m_restitutionVelocityThreshold = still_mps;
  world_.getSolverInfo().m_splitImpulsePenetrationThreshold = 0;
  world_.getSolverInfo().m_numIterations = sweeps;
  world_.getSolverInfo().m_linearSlop = slop_m;
  add(plane_, 0, {}, Kind::bed);
  for (const Block& block : cushion_blocks(table)) {
    add(boxes_.emplace_back(bt(block.half)), 0, block.centre, Kind::cushion);
  }
  for (std::size_t i = 0; i < balls.size(); ++i) {
    const engine::Ball& which = ball_at(table, i);
    const engine::BallState& at = balls[i];
    btRigidBody& body =
        add(spheres_.emplace_back(which.radius_m), which.mass_kg, at.position, Kind::ball);
    body.setUserIndex2(static_cast<int>(i));
    body.setLinearVelocity(bt(at.velocity));
    body.setAngularVelocity(bt(at.spin));
    body.setDamping(0, 0);
    body.setSleepingThresholds(still_mps, still_mps / which.radius_m);
    if (is_still(at.velocity, at.spin, which.radius_m)) body.setActivationState(ISLAND_SLEEPING);
    balls_.push_back(&body);
  }
}

/// The engine's rolling friction acts along two fixed axes, which bends every other roll; so the
/// torque is put on by hand, on balls that roll. It may stop a ball, and not turn it back.
void BulletTable::step(double step_s) {
  for (btRigidBody* body : balls_) {
    const engine::Ball& which = ball_at(table_, static_cast<std::size_t>(body->getUserIndex2()));
    const Vec2 slip = plan(vec3(body->getVelocityInLocalPoint({0, 0, -which.radius_m})));
    const Vec2 spin = plan(vec3(body->getAngularVelocity()));
    const bool on_bed = body->getWorldTransform().getOrigin().z() < which.radius_m + 1e-5;
    if (!body->isActive() || !on_bed || norm(slip) > still_mps || norm(spin) == 0) continue;
    const double torque_nm =
        std::min(rolling_torque_m(which, table_.cloth) * which.mass_kg * engine::gravity_mps2,
                 3.5 * inertia(which) * norm(spin) / step_s);  // the whole rolling ball's inertia
    body->applyTorque(bt(lift(-torque_nm * unit(spin))));
  }
  world_.stepSimulation(step_s, 0);
}

BulletTable::~BulletTable() {
  for (btRigidBody& body : bodies_) world_.removeRigidBody(&body);
}

bool BulletTable::all_still() const {
  return std::ranges::all_of(balls_, [&](const btRigidBody* body) {
    const auto i = static_cast<std::size_t>(body->getUserIndex2());
    return is_still(vec3(body->getLinearVelocity()), vec3(body->getAngularVelocity()),
                    ball_at(table_, i).radius_m);
  });
}

std::vector<Vec2> BulletTable::places() const {
  std::vector<Vec2> places;
  for (const btRigidBody* body : balls_) {
    places.push_back(plan(vec3(body->getWorldTransform().getOrigin())));
  }
  return places;
}

}  // namespace

Stepper bullet_stepper(const engine::Table& table) {
  return [table](std::span<const engine::BallState> balls, double step_s) {
    table_of_contacts = &table;
    gContactAddedCallback = on_contact;
    gContactBreakingThreshold = early_contact;
    BulletTable played(table, balls);
    for (double t_s = 0; t_s < longest_shot_s && !played.all_still(); t_s += step_s) {
      played.step(step_s);
    }
    return played.places();
  };
}

}  // namespace ahead::bench
