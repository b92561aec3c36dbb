#include <algorithm>
#include <array>

#include <ode/ode.h>

#include "bench/side_by_side/stepper.h"

// ODE: an exact solution of each step's contacts (dWorldStep), restitution and rolling resistance
// as parameters of a contact.
namespace ahead::bench {
namespace {

using engine::Vec2;
using engine::Vec3;

Vec3 vec3(const dReal* v) { return {v[0], v[1], v[2]}; }

enum class Kind { ball, bed, cushion };

/// Contacts are kept for balls that have sunk no deeper; beyond, they are pushed out.
constexpr double layer_m = 1e-5;

class OdeTable {
 public:
  OdeTable(const engine::Table& table, std::span<const engine::BallState> balls);
  ~OdeTable();
  OdeTable(const OdeTable&) = delete;
  OdeTable& operator=(const OdeTable&) = delete;

  void step(double step_s);
  [[nodiscard]] bool all_still() const;
  [[nodiscard]] std::vector<Vec2> places() const;

 private:
  void add_static(dGeomID geom, Kind kind);
  void touch(dGeomID first, dGeomID second);

  const engine::Table& table_;
  dWorldID world_ = dWorldCreate();
  dSpaceID space_ = dSimpleSpaceCreate(nullptr);
  dJointGroupID contacts_ = dJointGroupCreate(0);
  std::vector<dBodyID> bodies_;
};

void set_kind(dGeomID geom, Kind kind) {
  static std::array kinds{Kind::ball, Kind::bed, Kind::cushion};
  dGeomSetData(geom, &kinds[static_cast<std::size_t>(kind)]);
}

Kind kind_of(dGeomID geom) { return *static_cast<Kind*>(dGeomGetData(geom)); }

OdeTable::OdeTable(const engine::Table& table, std::span<const engine::BallState> balls)
    : table_(table) {
  dWorldSetGravity(world_, 0, 0, -engine::gravity_mps2);
  dWorldSetContactSurfaceLayer(world_, layer_m);
  dWorldSetAutoDisableFlag(world_, 1);
  dWorldSetAutoDisableLinearThreshold(world_, still_mps);
  dWorldSetAutoDisableAngularThreshold(world_, still_mps / table.object_ball.radius_m);
  dWorldSetAutoDisableTime(world_, 0);
  add_static(dCreatePlane(space_, 0, 0, 1, 0), Kind::bed);
  for (const Block& block : cushion_blocks(table)) {
    const dGeomID box = dCreateBox(space_, 2 * block.half.x, 2 * block.half.y, 2 * block.half.z);
    dGeomSetPosition(box, block.centre.x, block.centre.y, block.centre.z);
    add_static(box, Kind::cushion);
  }
  for (std::size_t i = 0; i < balls.size(); ++i) {
    const engine::Ball& ball = ball_at(table, i);
    const engine::BallState& at = balls[i];
    const dBodyID body = dBodyCreate(world_);
    dMass mass;
    dMassSetSphereTotal(&mass, ball.mass_kg, ball.radius_m);
    dBodySetMass(body, &mass);
    dBodySetGyroscopicMode(body, 0);
    dBodySetPosition(body, at.position.x, at.position.y, at.position.z - layer_m / 2);
    dBodySetLinearVel(body, at.velocity.x, at.velocity.y, at.velocity.z);
    dBodySetAngularVel(body, at.spin.x, at.spin.y, at.spin.z);
    const dGeomID geom = dCreateSphere(space_, ball.radius_m);
    dGeomSetBody(geom, body);
    set_kind(geom, Kind::ball);
    if (is_still(at.velocity, at.spin, ball.radius_m)) dBodyDisable(body);
    bodies_.push_back(body);
  }
}

OdeTable::~OdeTable() {
  dJointGroupDestroy(contacts_);
  dSpaceDestroy(space_);
  dWorldDestroy(world_);
}

void OdeTable::add_static(dGeomID geom, Kind kind) {
  constexpr unsigned long statics = 1;
  dGeomSetCategoryBits(geom, statics);
  dGeomSetCollideBits(geom, ~statics);
  set_kind(geom, kind);
}

void OdeTable::touch(dGeomID first, dGeomID second) {
  dContact contact{};
  if (dCollide(first, second, 1, &contact.geom, sizeof(dContactGeom)) == 0) return;
  const dBodyID body = dGeomGetBody(first) != nullptr ? dGeomGetBody(first) : dGeomGetBody(second);
  const Kind kind = std::max(kind_of(first), kind_of(second));
  contact.surface.mode = dContactFDir1 | dContactApprox1 | dContactAxisDep;
  switch (kind) {
    case Kind::ball:
      contact.surface.mode |= dContactBounce;
      contact.surface.mu = table_.ball_contact.friction_a;
      contact.surface.bounce = table_.ball_contact.restitution;
      break;
    case Kind::cushion:
      contact.surface.mode |= dContactBounce;
      contact.surface.mu = table_.cushion.friction;
      contact.surface.bounce = table_.cushion.restitution;
      break;
    case Kind::bed: {
      const engine::Ball& ball = ball_at(table_, body == bodies_[0] ? 0 : 1);
      contact.surface.mu = table_.cloth.sliding;
      contact.surface.rho = contact.surface.rho2 = rolling_torque_m(ball, table_.cloth);
      contact.surface.rhoN = spin_torque_m(ball, table_.cloth);
      break;
    }
  }
  contact.surface.mu2 = contact.surface.mu;
  contact.surface.bounce_vel = still_mps;

  // Friction is a pyramid: laid along the slip, or along the path where there is none, it is right.
  dVector3 at_first{};
  dVector3 at_second{};
  const auto& p = contact.geom.pos;
  const dBodyID a = dGeomGetBody(first);
  const dBodyID b = dGeomGetBody(second);
  if (a != nullptr) dBodyGetPointVel(a, p[0], p[1], p[2], at_first);
  if (b != nullptr) dBodyGetPointVel(b, p[0], p[1], p[2], at_second);
  const Vec3 n = vec3(contact.geom.normal);
  Vec3 along = tangential(vec3(at_first) - vec3(at_second), n);
  // Rolling resistance is for a ball that rolls; while it slides, only the slide slows it.
  if (norm(along) < still_mps) {
    if (kind == Kind::bed) contact.surface.mode |= dContactRolling;
    along = tangential(vec3(dBodyGetLinearVel(body)), n);
  }
  if (norm(along) < 1e-9)
    along = tangential(std::abs(n.x) < 0.5 ? Vec3{1, 0, 0} : Vec3{0, 1, 0}, n);
  along = unit(along);
  contact.fdir1[0] = along.x;
  contact.fdir1[1] = along.y;
  contact.fdir1[2] = along.z;
  dJointAttach(dJointCreateContact(world_, contacts_, &contact), a, b);
}

void OdeTable::step(double step_s) {
  const auto near_each_other = [](void* self, dGeomID first, dGeomID second) {
    static_cast<OdeTable*>(self)->touch(first, second);
  };
  dSpaceCollide(space_, this, near_each_other);
  dWorldStep(world_, step_s);
  dJointGroupEmpty(contacts_);
}

bool OdeTable::all_still() const {
  for (std::size_t i = 0; i < bodies_.size(); ++i) {
    if (!is_still(vec3(dBodyGetLinearVel(bodies_[i])), vec3(dBodyGetAngularVel(bodies_[i])),
                  ball_at(table_, i).radius_m)) {
      return false;
    }
  }
  return true;
}

std::vector<Vec2> OdeTable::places() const {
  std::vector<Vec2> places;
  for (const dBodyID body : bodies_) places.push_back(plan(vec3(dBodyGetPosition(body))));
  return places;
}

}  // namespace

Stepper ode_stepper(const engine::Table& table) {
  dInitODE2(0);
  return [table](std::span<const engine::BallState> balls, double step_s) {
    OdeTable played(table, balls);
    for (double t_s = 0; t_s < longest_shot_s && !played.all_still(); t_s += step_s) {
      played.step(step_s);
    }
    return played.places();
  };
}

}  // namespace ahead::bench
