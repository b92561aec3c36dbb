#include "lesson/film/painter.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "lesson/figure/ball.h"
#include "lesson/figure/shot_marks.h"
#include "lesson/figure/style.h"
#include "lesson/figure/table.h"
#include "lesson/overview_figure.h"
#include "lesson/pictures.h"
#include "lesson/render/svg_picture.h"
#include "lesson/render/typeset.h"

namespace ahead::lesson {
namespace {

using coach::Plan;

/// How long a line takes to be drawn, s.
constexpr double drawing_s = 0.7;

/// Where a ball is at a time; nothing when it has left the table.
std::optional<Point> place_at(const ShotScene& scene, std::size_t ball, double t_s) {
  for (const engine::Event& event : scene.shot.best.intended.events) {
    const bool leaves =
        event.kind == engine::EventKind::pot || event.kind == engine::EventKind::off_table;
    if (leaves && event.ball == static_cast<int>(ball) && t_s >= event.t_s) return std::nullopt;
  }
  const PathPoint* last = nullptr;
  for (const DrawnStretch& stretch : scene.paths[ball]) {
    for (const PathPoint& p : stretch.points) {
      if (p.t_s < t_s) {
        last = &p;
        continue;
      }
      if (last == nullptr) return scene.centre(ball);
      const double span_s = p.t_s - last->t_s;
      const double f = span_s > 0 ? (t_s - last->t_s) / span_s : 1;
      return last->at + f * (p.at - last->at);
    }
  }
  return last == nullptr ? scene.centre(ball) : last->at;
}

/// The frame's places, in pixels.
struct Stage {
  Frame table;
  Frame whole;  // the words before the first shot
  Frame words;
  Frame strike;
};

Stage stage_of(const FilmShape& shape, double table_aspect, double strike_aspect) {
  const double unit = std::min(shape.width, shape.height) / 1080.0;
  const double edge = 36 * unit;
  const double w = shape.width;
  const double h = shape.height;
  if (w > h) {
    const double high = h - 2 * edge;
    const double wide = high * table_aspect;
    const double left = 2 * edge + wide + 2 * edge;
    const double strike_high = 0.42 * h;
    const Frame words{left, 2 * edge, w - left - 2 * edge, h - strike_high - 5 * edge};
    return {.table = {edge, edge, wide, high},
            .whole = words,
            .words = words,
            .strike = {left, h - strike_high - edge, strike_high * strike_aspect, strike_high}};
  }
  // The words stand beside the table, so that there is room below to copy the strike from.
  const double high = 0.62 * h;
  const double wide = high * table_aspect;
  const double below = high + 2 * edge;
  const double beside = wide + 2 * edge;
  const double strike_high = h - below - 2 * edge;
  const double strike_wide = std::min(w - 2 * edge, strike_high * strike_aspect);
  return {.table = {edge, edge, wide, high},
          .whole = {2 * edge, below, w - 4 * edge, h - below - edge},
          .words = {beside, 2 * edge, w - beside - edge, high - 2 * edge},
          .strike = {(w - strike_wide) / 2, below, strike_wide, strike_wide / strike_aspect}};
}

}  // namespace

struct Painter::Canvas {
  const Plan& plan;
  const LessonWords& words;
  const Look& look;
  const Timeline& timeline;
  FilmShape shape;
  std::string style;

  const Part* part = nullptr;  // that `ground` is painted for
  std::optional<std::size_t> shot;
  std::optional<ShotScene> scene;
  Drawing table;
  Stage stage;
  Surface base;                  // table, pocket
  Surface found;                 // where the cue ball really stopped
  std::array<Surface, 5> lines;  // aim, contact, tangent, path, leave
  std::vector<Surface> sprites;  // a ball each
  double sprite_px = 0;
  Surface ground;  // all that is still during the part
  Surface frame;
  double last_moment = -1;         // of the frame that is painted
  std::vector<Region> changed;     // by the last call
  std::vector<Region> ball_boxes;  // where balls are painted

  Canvas(const Plan& the_plan, const LessonWords& the_words, const Look& the_look,
         const Timeline& the_timeline, const FilmShape& the_shape)
      : plan(the_plan),
        words(the_words),
        look(the_look),
        timeline(the_timeline),
        shape(the_shape),
        style(figure_style(the_look)),
        table(table_drawing(the_plan.layout.table)) {
    const Drawing strike = strike_drawing(plan, 0);
    stage = stage_of(shape, table.width / table.height, strike.width / strike.height);
    ground = image(shape.width, shape.height);
    frame = image(shape.width, shape.height);
  }

  [[nodiscard]] double scale() const { return stage.table.height / table.height; }
  [[nodiscard]] Point pixel(Point at) const {
    return {stage.table.left + scale() * (at.x - table.left),
            stage.table.top + scale() * (at.y - table.top)};
  }

  /// Marks on the table, as pixels of the whole frame.
  [[nodiscard]] Surface painted(const std::string& body, Ground under) const {
    Surface surface = image(shape.width, shape.height);
    const Cairo pen = pen_on(surface);
    if (under == Ground::paper) {
      const Drawing paper{.width = 1.0 * shape.width, .height = 1.0 * shape.height};
      SvgPicture(svg_document(paper, style))
          .draw(pen.get(), {0, 0, 1.0 * shape.width, 1.0 * shape.height});
    }
    Drawing marks = table;
    marks.body = body;
    SvgPicture(svg_document(marks, style, Ground::clear)).draw(pen.get(), stage.table);
    return surface;
  }

  void set_up(std::size_t index) {
    shot = index;
    const coach::PlannedShot& planned = plan.shots[index];
    scene.emplace(scene_of(planned));
    base =
        painted(table_mark(scene->table(), scene->view) + tape_mark(scene->table(), scene->view) +
                    target_pocket_mark(scene->table(), planned.best.pocket, scene->view),
                Ground::paper);
    Labels labels = labels_of(*scene);
    // In a picture the ribbon leads to the contact; here the line of aim comes before it.
    const std::string to_contact =
        scene->contact ? line(scene->centre(0), *scene->contact, "hairline aim") : std::string{};
    const std::array bodies{
        to_contact + aim_line(*scene, labels), contact_ring(*scene), tangent_line(*scene, labels),
        ribbons(*scene, look) + rest_rings(*scene), landing_mark(scene->landings, scene->view)};
    for (std::size_t i = 0; i < lines.size(); ++i) lines[i] = painted(bodies[i], Ground::clear);
    found = painted(found_mark(*scene, words.came[index], labels), Ground::clear);
    sprites.clear();
    const double reach = 1.15 * scene->radius(1);
    sprite_px = std::ceil(2 * reach * scale()) + 2;
    for (std::size_t i = 0; i < planned.before.balls.size(); ++i) {
      const double half = sprite_px / 2 / scale();
      const Drawing ball{
          .left = -half,
          .top = -half,
          .width = 2 * half,
          .height = 2 * half,
          .body = ball_mark(planned.before.balls[i], {0, 0}, scene->radius(i), look)};
      Surface sprite = image(static_cast<int>(sprite_px), static_cast<int>(sprite_px));
      SvgPicture(svg_document(ball, style, Ground::clear))
          .draw(pen_on(sprite).get(), {0, 0, sprite_px, sprite_px});
      sprites.push_back(std::move(sprite));
    }
  }

  /// Everything that stays as it is during the part.
  void lay_ground(const Part& now) {
    part = &now;
    last_moment = -1;
    if (now.beat == Beat::whole) {
      ground = painted(overview_drawing(plan, look).body, Ground::paper);
      say(now);
      return;
    }
    if (shot != now.shot) set_up(now.shot);
    const Cairo pen = pen_on(ground);
    cairo_set_operator(pen.get(), CAIRO_OPERATOR_SOURCE);
    cairo_set_source_surface(pen.get(), base.get(), 0, 0);
    cairo_paint(pen.get());
    cairo_set_operator(pen.get(), CAIRO_OPERATOR_OVER);
    const auto show = [&](std::size_t line, double strength) {
      cairo_set_source_surface(pen.get(), lines[line].get(), 0, 0);
      cairo_paint_with_alpha(pen.get(), strength);
    };
    constexpr std::size_t path = 3;
    constexpr std::size_t leave = 4;
    if (now.still() && now.beat != Beat::rest) {
      // Lines drawn before this one; the leave lies under all.
      const auto before = static_cast<std::size_t>(now.beat) - static_cast<std::size_t>(Beat::aim);
      for (std::size_t i = 0; i < before; ++i) show(i, 1);
    } else {
      constexpr double faint = 0.35;
      show(leave, faint);
      show(path, faint);
      if (now.beat == Beat::rest) {
        cairo_set_source_surface(pen.get(), found.get(), 0, 0);
        cairo_paint(pen.get());
      }
    }
    say(now);
  }

  void say(const Part& now) const {
    const Cairo pen = pen_on(ground);
    const double unit = std::min(shape.width, shape.height) / 1080.0;
    const Frame& box = now.beat == Beat::whole ? stage.whole : stage.words;
    double y = box.top;
    if (now.beat == Beat::whole) {
      y +=
          set_words(pen.get(), LessonWords::text_of(words.clearance, "title"), box.left, y,
                    box.width, {.face = Face::heading_strong, .size = 56 * unit, .leading = 1.15}) +
          24 * unit;
    } else {
      y +=
          set_words(pen.get(), fmt::format("Shot {} of {}", now.shot + 1, plan.shots.size()),
                    box.left, y, box.width, {.face = Face::body, .size = 27 * unit, .grey = 0.38}) +
          6 * unit;
      y += set_words(pen.get(), words.heading_of(plan, now.shot), box.left, y, box.width,
                     {.face = Face::heading_strong, .size = 50 * unit, .leading = 1.15}) +
           18 * unit;
      const Drawing strike = strike_drawing(plan, now.shot);
      if (now.beat != Beat::aim) {
        SvgPicture(svg_document(strike, style, Ground::clear)).draw(pen.get(), stage.strike);
      }
    }
    std::string_view said = now.words;
    if (now.beat == Beat::whole) said = said.substr(std::min(said.size(), said.find(". ") + 2));
    Setting setting{.face = Face::heading, .size = 44 * unit, .leading = 1.3};
    constexpr double least = 24;
    while (setting.size > least * unit &&
           height_of(pen.get(), said, box.width, setting) > box.top + box.height - y) {
      setting.size -= unit;
    }
    set_words(pen.get(), said, box.left, y, box.width, setting);
  }

  [[nodiscard]] Region whole() const { return {0, 0, shape.width, shape.height}; }

  [[nodiscard]] Region table_region() const {
    return {static_cast<int>(stage.table.left), static_cast<int>(stage.table.top),
            static_cast<int>(std::ceil(stage.table.width)) + 2,
            static_cast<int>(std::ceil(stage.table.height)) + 2};
  }

  void paint(double t_s) {
    changed.clear();
    const Part& now = timeline.at(t_s);
    if (part != &now) {
      lay_ground(now);
      changed.push_back(whole());
    }
    // Nothing moves any more: the frame that is there will do.
    const double since_s = t_s - now.from_s;
    const double moment = now.beat == Beat::play ? since_s : std::min(since_s, drawing_s);
    if (moment == last_moment) return;
    last_moment = moment;

    const Cairo pen = pen_on(frame);
    cairo_set_operator(pen.get(), CAIRO_OPERATOR_SOURCE);
    cairo_set_source_surface(pen.get(), ground.get(), 0, 0);
    cairo_paint(pen.get());
    cairo_set_operator(pen.get(), CAIRO_OPERATOR_OVER);
    if (now.beat == Beat::whole) return;
    if (now.still() && now.beat != Beat::rest) {
      draw_line(pen, now.beat, moment / drawing_s);
      changed.push_back(table_region());
    }
    changed.insert(changed.end(), ball_boxes.begin(), ball_boxes.end());
    ball_boxes.clear();
    const double shot_s = now.beat == Beat::play   ? since_s
                          : now.beat == Beat::rest ? scene->shot.best.intended.still_s
                                                   : 0;
    for (std::size_t i = sprites.size(); i-- > 0;) {
      const auto at = place_at(*scene, i, shot_s);
      if (!at) continue;
      const Point centre = pixel(*at);
      const Point corner{centre.x - sprite_px / 2, centre.y - sprite_px / 2};
      cairo_set_source_surface(pen.get(), sprites[i].get(), corner.x, corner.y);
      cairo_paint(pen.get());
      // A pixel more, since the corner lies between pixels.
      const int side = static_cast<int>(sprite_px) + 2;
      ball_boxes.push_back({static_cast<int>(std::floor(corner.x)) - 1,
                            static_cast<int>(std::floor(corner.y)) - 1, side + 1, side + 1});
    }
    changed.insert(changed.end(), ball_boxes.begin(), ball_boxes.end());
  }

  /// The part's own line, as far as it has got: seen through a circle that grows from where the
  /// line begins.
  void draw_line(const Cairo& pen, Beat beat, double done) const {
    const std::size_t line = static_cast<std::size_t>(beat) - static_cast<std::size_t>(Beat::aim);
    Point from = beat == Beat::tangent && scene->contact ? *scene->contact : scene->centre(0);
    if (beat == Beat::leave) from = scene->view.at(scene->shot.best.cue_path.rest);
    const Point centre = pixel(from);
    const double farthest = beat == Beat::tangent ? 0.3 : 1.1;
    const double radius = std::max(1.0, done * farthest * stage.table.height);
    cairo_save(pen.get());
    if (done < 1) {
      cairo_arc(pen.get(), centre.x, centre.y, radius, 0, 2 * std::numbers::pi);
      cairo_clip(pen.get());
    }
    cairo_set_source_surface(pen.get(), lines[line].get(), 0, 0);
    cairo_paint(pen.get());
    cairo_restore(pen.get());
  }
};

Painter::Painter(const Plan& plan, const LessonWords& words, const Look& look,
                 const Timeline& timeline, const FilmShape& shape)
    : canvas_(std::make_unique<Canvas>(plan, words, look, timeline, shape)) {}

Painter::~Painter() = default;

Painted Painter::frame(long number) {
  canvas_->paint(static_cast<double>(number) / canvas_->shape.rate);
  cairo_surface_t* surface = canvas_->frame.get();
  cairo_surface_flush(surface);
  const auto bytes = static_cast<std::size_t>(cairo_image_surface_get_stride(surface)) *
                     static_cast<std::size_t>(canvas_->shape.height);
  return {.pixels = {cairo_image_surface_get_data(surface), bytes}, .changed = canvas_->changed};
}

}  // namespace ahead::lesson
