#include "tests/photographs/pov_scene.h"

#include <algorithm>
#include <cmath>
#include <variant>

#include <fmt/format.h>

namespace ahead::photographs {
namespace {

using engine::RailArc;
using engine::RailSegment;

constexpr double undercut_m = 0.012;
constexpr double wood_m = 0.11;

std::string text(Vec3 v) { return fmt::format("<{:.6f},{:.6f},{:.6f}>", v.x, v.y, v.z); }
std::string text(Tint t) {
  return fmt::format("rgb <{:.4f},{:.4f},{:.4f}>", t.red, t.green, t.blue);
}

class Writer {
 public:
  Writer(const Scene& scene, double margin, bool numbers)
      : scene_(scene), margin_(margin), numbers_(numbers) {}

  std::string document() {
    out_ = "#version 3.7;\nglobal_settings { assumed_gamma 1.0 max_trace_level 4 }\n";
    if (!numbers_) out_ += "background { rgb <0.05,0.05,0.05> }\n";
    camera();
    if (!numbers_) lamps();
    table();
    for (std::size_t i = 0; i < scene_.balls.size(); ++i) ball(i);
    clutter();
    return out_;
  }

 private:
  template <class... Values>
  void add(fmt::format_string<Values...> form, Values&&... values) {
    out_ += fmt::format(form, std::forward<Values>(values)...);
    out_ += '\n';
  }

  [[nodiscard]] std::string skin(Tint tint, std::string_view finish) const {
    if (numbers_) return "pigment { rgb 0 } finish { ambient 0 diffuse 0 }";
    return fmt::format("pigment {{ {} }} finish {{ ambient {:.3f} diffuse 0.75 {} }}", text(tint),
                       scene_.ambient, finish);
  }
  [[nodiscard]] std::string cloth() const {
    if (numbers_) return skin({}, "");
    const Tint c = scene_.cloth;
    const Tint d{c.red * 0.92, c.green * 0.92, c.blue * 0.92};
    return fmt::format(
        "pigment {{ bozo scale 0.004 color_map {{ [0 {}] [1 {}] }} }} finish {{ ambient {:.3f} "
        "diffuse 0.75 }}",
        text(c), text(d), scene_.ambient);
  }

  void camera() {
    const Eye& eye = scene_.eye;
    // Whole pixels, as the picture will have.
    const double wide = std::round(margin_ * scene_.width_px) / scene_.lens.focal_px;
    const double high = std::round(margin_ * scene_.height_px) / scene_.lens.focal_px;
    add("camera {{ location {} direction {} right {} up {} }}", text(eye.at), text(eye.forward),
        text(wide * eye.right), text(-high * eye.down));
  }

  void lamps() {
    for (const Lamp& lamp : scene_.lamps) {
      // A lamp without size throws hard shadows.
      const std::string soft =
          lamp.size_m == Vec2{}
              ? ""
              : fmt::format("area_light <{:.3f},0,0>, <0,{:.3f},0>, 3, 3 adaptive 0", lamp.size_m.x,
                            lamp.size_m.y);
      add("light_source {{ {} {} {} fade_distance 1.2 fade_power 1 }}", text(lamp.at),
          text(lamp.tint), soft);
      // The lamp itself, for the balls to mirror; it throws no shadow.
      const Vec3 half{lamp.size_m.x / 2, lamp.size_m.y / 2, 0.01};
      add("box {{ {} {} pigment {{ rgb 1 }} finish {{ ambient 1.5 diffuse 0 }} no_shadow no_image "
          "}}",
          text(lamp.at - half), text(lamp.at + half));
    }
    add("light_source {{ {} rgb 0.10 shadowless }}", text(scene_.eye.at + Vec3{0.3, 0.2, 0.6}));
    add("plane {{ z, -0.8 {} }}", skin({0.18, 0.15, 0.13}, ""));
    add("box {{ <-8,-8,-0.9> <9,10,7> hollow inverse {} }}", skin({0.35, 0.33, 0.30}, ""));
  }

  void table() {
    const engine::Table& t = scene_.table;
    const double back = scene_.cushion_m;
    const double edge = back + wood_m;
    const double h = t.nose_height_m;
    // Bed with the pockets cut out.
    add("difference {{ box {{ <{:.4f},{:.4f},-0.03> <{:.4f},{:.4f},0> }}", -back, -back,
        t.width_m + back, t.length_m + back);
    holes(-0.1, 0.1, 1.0);
    add("{} }}", cloth());
    add("box {{ <{:.4f},{:.4f},-0.25> <{:.4f},{:.4f},-0.031> {} }}", -edge, -edge, t.width_m + edge,
        t.length_m + edge, skin({0.015, 0.015, 0.015}, ""));
    // Wood around, with the pockets cut out.
    add("difference {{ box {{ <{:.4f},{:.4f},-0.12> <{:.4f},{:.4f},{:.4f}> }} box {{ "
        "<{:.4f},{:.4f},-1> <{:.4f},{:.4f},1> }}",
        -edge, -edge, t.width_m + edge, t.length_m + edge, h + 0.006, -back, -back,
        t.width_m + back, t.length_m + back);
    holes(-1, 1, 1.12);
    add("{} }}", skin(scene_.wood, "phong 0.2 phong_size 30"));
    // Cushions, less the pockets.
    for (const engine::Rail& rail : t.rails) {
      out_ += "difference { ";
      if (const auto* nose = std::get_if<RailSegment>(&rail)) {
        straight(*nose);
      } else {
        const auto& arc = std::get<RailArc>(rail);
        add("cylinder {{ {} {} {:.5f} }}", text(engine::lift(arc.centre, 0)),
            text(engine::lift(arc.centre, h)), arc.radius_m);
      }
      holes(-1, 1, 0.98);
      add("{} }}", cloth());
    }
    if (scene_.markings) markings();
  }

  void holes(double from_z, double to_z, double larger) {
    for (const engine::Pocket& pocket : scene_.table.pockets) {
      add("cylinder {{ {} {} {:.5f} }}", text(engine::lift(pocket.centre, from_z)),
          text(engine::lift(pocket.centre, to_z)), larger * pocket.fall_radius_m);
    }
  }

  /// The rubber under its cloth: nose, top back to the wood, undercut down to the bed.
  void straight(const RailSegment& nose) {
    const Vec2 along = unit(nose.to - nose.from);
    const Vec2 middle{scene_.table.width_m / 2, scene_.table.length_m / 2};
    const Vec2 half = 0.5 * (nose.from + nose.to);
    Vec2 out = left_of(along);
    if (dot(out, half - middle) < 0) out = -out;
    const double h = scene_.table.nose_height_m;
    const bool jaw = norm(nose.to - nose.from) < 0.2;
    const double deep = jaw ? 0.02 : scene_.cushion_m;
    const double under = jaw ? 0.0 : undercut_m;
    // A prism along local y, its profile in x (outwards) and z, set into place by a matrix.
    const double length = norm(nose.to - nose.from);
    add("prism {{ linear_spline linear_spline 0, {:.6f}, 5 <0,{:.6f}> <{:.6f},{:.6f}> <{:.6f},0> "
        "<{:.6f},0> <0,{:.6f}> matrix <{:.8f},{:.8f},0, {:.8f},{:.8f},0, 0,0,1, {:.8f},{:.8f},0> "
        "}}",
        length, h, deep, h + scene_.cushion_rise_m, deep, under, h, out.x, out.y, along.x, along.y,
        nose.from.x, nose.from.y);
  }

  void markings() {
    const engine::Table& t = scene_.table;
    const std::string chalk = skin({0.75, 0.75, 0.70}, "");
    const double y = t.markings.baulk_line_m;
    add("box {{ <0.01,{:.5f},-0.001> <{:.5f},{:.5f},0.0002> {} }}", y - 0.0015, t.width_m - 0.01,
        y + 0.0015, chalk);
    if (t.id.starts_with("english")) {
      add("difference {{ cylinder {{ <{0:.5f},{1:.5f},-0.001> <{0:.5f},{1:.5f},0.0002> {2:.5f} }} "
          "cylinder {{ <{0:.5f},{1:.5f},-1> <{0:.5f},{1:.5f},1> {3:.5f} }} box {{ <-1,{1:.5f},-1> "
          "<3,4,1> }} {4} }}",
          t.width_m / 2, y, 0.2 * t.width_m + 0.0015, 0.2 * t.width_m - 0.0015, chalk);
    }
    add("cylinder {{ <{0:.5f},{1:.5f},-0.001> <{0:.5f},{1:.5f},0.0003> 0.007 {2} }}",
        t.markings.spot.x, t.markings.spot.y, skin({0.02, 0.02, 0.02}, ""));
  }

  void ball(std::size_t i) {
    const SceneBall& b = scene_.balls[i];
    const Vec3 centre = engine::lift(b.at, b.radius_m);
    if (numbers_) {
      add("sphere {{ {} {:.5f} pigment {{ srgb <{:.6f},0,0> }} finish {{ ambient 1 diffuse 0 }} }}",
          text(centre), b.radius_m, static_cast<double>((i + 1) * 8) / 255);
      return;
    }
    const std::string finish = fmt::format(
        "finish {{ ambient {:.3f} diffuse 0.72 phong 0.7 phong_size 120 reflection {{ {:.3f}, "
        "{:.3f} "
        "}} conserve_energy }}",
        scene_.ambient, 0.3 * scene_.mirror, scene_.mirror);
    std::string pigment = fmt::format("pigment {{ {} }}", text(b.tint));
    const bool numbered = scene_.table.id.starts_with("american") && b.id != "cue";
    if (b.striped) {
      const std::string white = text(Tint{0.78, 0.75, 0.68});
      pigment = fmt::format(
          "pigment {{ gradient z color_map {{ [0 {0}] [0.22 {0}] [0.22 {1}] [0.78 {1}] [0.78 {0}] "
          "[1 {0}] }} scale 2 translate -z }}",
          white, text(b.tint));
    }
    if (numbered) {
      // Two white discs for the number, opposite each other.
      add("sphere {{ 0 1 {} {} pigment {{ cylindrical rotate x*0 color_map {{ [0 rgbt 1] [0.68 "
          "rgbt "
          "1] [0.68 {}] [1 {}] }} }} {} scale {:.5f} rotate {} translate {} }}",
          "texture {", pigment + " " + finish + " } texture {", "rgb <0.78,0.75,0.68>",
          "rgb <0.78,0.75,0.68>", finish + " }", b.radius_m, text(b.turn_deg), text(centre));
      return;
    }
    add("sphere {{ 0 1 {} {} scale {:.5f} rotate {} translate {} }}", pigment, finish, b.radius_m,
        text(b.turn_deg), text(centre));
  }

  void clutter() {
    const engine::Table& t = scene_.table;
    const double top = t.nose_height_m + 0.012;
    if (scene_.cue) {
      // Over the right-hand cushion, its tip some way in over the bed.
      const Vec3 tip{0.72 * t.width_m, 0.42 * t.length_m, 0.035};
      const Vec3 butt{t.width_m + 0.75, 0.18 * t.length_m, 0.16};
      add("cone {{ {} 0.0045 {} 0.014 {} }}", text(tip), text(butt),
          skin({0.55, 0.36, 0.16}, "phong 0.3"));
      if (scene_.hand) {
        const Vec3 palm = tip + 0.22 * unit(butt - tip) - Vec3{0, 0, 0.03};
        const std::string flesh = skin({0.55, 0.30, 0.20}, "");
        add("union {{ sphere {{ 0 1 scale <0.045,0.035,0.022> translate {} }}", text(palm));
        for (int i = -2; i <= 1; ++i) {
          const Vec3 root = palm + Vec3{-0.03, 0.014 * i, 0};
          add("cylinder {{ {} {} 0.009 }} sphere {{ {} 0.009 }}", text(root),
              text(root + Vec3{-0.055, 0.014 * i, -0.008}),
              text(root + Vec3{-0.055, 0.014 * i, -0.008}));
        }
        add("cylinder {{ {} {} 0.028 }} {} }}", text(palm), text(palm + Vec3{0.5, -0.1, 0.15}),
            flesh);
      }
    }
    const std::string cube = skin({0.05, 0.20, 0.45}, "");
    if (scene_.chalk) {
      add("box {{ <-0.011,-0.011,0> <0.011,0.011,0.022> rotate z*25 translate "
          "<{:.4f},{:.4f},{:.4f}> "
          "{} }}",
          -0.08, 0.33 * t.length_m, top - 0.006, cube);
    }
    if (scene_.chalk_on_bed) {
      add("box {{ <-0.011,-0.011,0> <0.011,0.011,0.022> rotate z*40 translate <{:.4f},{:.4f},0> {} "
          "}}",
          0.31 * t.width_m, 0.62 * t.length_m, cube);
    }
    if (scene_.paper) {
      add("box {{ <0,0,0> <0.09,0.13,0.001> rotate z*15 translate <{:.4f},{:.4f},{:.4f}> {} }}",
          t.width_m + 0.055, 0.6 * t.length_m, top - 0.005, skin({0.8, 0.8, 0.78}, ""));
    }
    if (scene_.person) {
      add("union {{ cylinder {{ <0,0,-0.8> <0,0,0.55> 0.19 }} sphere {{ <0,0,0.75> 0.11 }} "
          "translate "
          "<{:.3f},{:.3f},0> {} }}",
          0.3 * t.width_m, t.length_m + 0.55, skin({0.06, 0.07, 0.12}, ""));
    }
  }

  const Scene& scene_;
  double margin_;
  bool numbers_;
  std::string out_;
};

}  // namespace

std::string pov_scene(const Scene& scene, double margin) {
  return Writer(scene, margin, false).document();
}

std::string pov_numbers(const Scene& scene, double margin) {
  return Writer(scene, margin, true).document();
}

}  // namespace ahead::photographs
