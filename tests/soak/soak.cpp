#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <mutex>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <fmt/format.h>

#include "tests/laws/laws.h"
#include "tests/support/shot_facts.h"

// Plays very many seeded shots, holds each to the laws and reports how near the worst came.
// Exit status 1 when a law is broken; the report names the seeds, and --first SEED --shots 1 plays
// one again.
namespace ahead::test {
namespace {

struct Options {
  std::uint64_t shots = 1'000'000;
  std::uint64_t first = 0;
  unsigned threads = std::max(1U, std::thread::hardware_concurrency());
};

/// The largest value of some quantity, and the shot that had it. Of equal shots the one of the
/// lowest seed, so that the report does not depend on the threads.
struct Worst {
  double value = 0;
  std::uint64_t seed = 0;

  void weigh(const Worst& other) {
    if (std::pair(-other.value, other.seed) < std::pair(-value, seed)) *this = other;
  }
};

struct Broken {
  std::uint64_t seed = 0;
  std::string laws;
};

struct Report {
  std::uint64_t shots = 0;
  std::uint64_t events = 0;
  std::uint64_t knife_edge = 0;
  std::uint64_t sank = 0;
  Worst energy, balls, cushion, mirror, cut, most_events, longest;
  std::vector<Broken> broken;

  void add(std::uint64_t seed, const Judgement& judgement) {
    ++shots;
    events += judgement.events;
    knife_edge += judgement.knife_edge ? 1 : 0;
    sank += judgement.sank ? 1 : 0;
    energy.weigh({judgement.energy_rise, seed});
    balls.weigh({judgement.ball_overlap_m, seed});
    cushion.weigh({judgement.cushion_overlap_m, seed});
    mirror.weigh({judgement.mirror_m, seed});
    cut.weigh({judgement.cut_m, seed});
    most_events.weigh({static_cast<double>(judgement.events), seed});
    longest.weigh({judgement.settled_s, seed});
    if (!judgement.broken.empty()) broken.push_back({seed, judgement.broken});
  }

  void add(const Report& other) {
    shots += other.shots;
    events += other.events;
    knife_edge += other.knife_edge;
    sank += other.sank;
    energy.weigh(other.energy);
    balls.weigh(other.balls);
    cushion.weigh(other.cushion);
    mirror.weigh(other.mirror);
    cut.weigh(other.cut);
    most_events.weigh(other.most_events);
    longest.weigh(other.longest);
    broken.insert(broken.end(), other.broken.begin(), other.broken.end());
  }
};

/// The turns of all the workers, shared out as they come; says how far they are.
class Turns {
 public:
  explicit Turns(std::uint64_t shots) : shots_(shots) {}

  /// The next block of shots, counted from 0; empty when there is none.
  std::pair<std::uint64_t, std::uint64_t> next() {
    const std::uint64_t begin = std::min(next_.fetch_add(block), shots_);
    return {begin, std::min(begin + block, shots_)};
  }

  void done(std::uint64_t count) {
    const std::scoped_lock lock(telling_);
    done_ += count;
    const auto now = std::chrono::steady_clock::now();
    if (now - told_ < std::chrono::seconds(10) && done_ < shots_) return;
    told_ = now;
    fmt::print(stderr, "{} of {} shots\n", done_, shots_);
  }

 private:
  static constexpr std::uint64_t block = 500;
  std::uint64_t shots_;
  std::atomic<std::uint64_t> next_ = 0;
  std::mutex telling_;
  std::uint64_t done_ = 0;
  std::chrono::steady_clock::time_point told_ = std::chrono::steady_clock::now();
};

std::uint64_t digest_of(std::uint64_t seed) {
  const SeededShot seeded = seeded_shot(seed);
  return digest(simulate(*seeded.field, seeded.balls, seeded.strike));
}

/// One shot in this many is played again alone, and must be the same bit for bit.
constexpr std::uint64_t again_every = 20;

Report soak(const Options& options) {
  Report report;
  std::vector<std::uint64_t> digests((options.shots + again_every - 1) / again_every);
  Turns turns(options.shots);
  std::mutex adding;
  const auto work = [&] {
    Report mine;
    for (auto [shot, end] = turns.next(); shot < end; std::tie(shot, end) = turns.next()) {
      const std::uint64_t count = end - shot;
      for (; shot < end; ++shot) {
        const std::uint64_t seed = options.first + shot;
        mine.add(seed, judged(seeded_shot(seed)));
        if (shot % again_every == 0) digests[shot / again_every] = digest_of(seed);
      }
      turns.done(count);
    }
    const std::scoped_lock lock(adding);
    report.add(mine);
  };
  {
    std::vector<std::jthread> workers;
    for (unsigned i = 0; i < options.threads; ++i) workers.emplace_back(work);
  }
  for (std::uint64_t i = 0; i < digests.size(); ++i) {
    const std::uint64_t seed = options.first + i * again_every;
    if (digest_of(seed) != digests[i]) {
      report.broken.push_back({seed, " is another shot when it is played alone;"});
    }
  }
  std::ranges::sort(report.broken, {}, &Broken::seed);
  return report;
}

void print(const Report& report, const Options& options) {
  const auto line = [](const char* what, const std::string& value, const Worst& worst) {
    fmt::print("{:<26}{:>12}   seed {}\n", what, value, worst.seed);
  };
  fmt::print("{} shots, seeds {} to {}, on {} threads; {} events\n", report.shots, options.first,
             options.first + options.shots - 1, options.threads, report.events);
  line("worst energy gain", fmt::format("{:.1e}", report.energy.value), report.energy);
  line("worst overlap of balls", fmt::format("{:.1e} m", report.balls.value), report.balls);
  line("worst overlap of cushion", fmt::format("{:.1e} m", report.cushion.value), report.cushion);
  line("worst mirror difference", fmt::format("{:.1e} m", report.mirror.value), report.mirror);
  line("worst cut difference", fmt::format("{:.1e} m", report.cut.value), report.cut);
  line("most events", fmt::format("{:.0f}", report.most_events.value), report.most_events);
  line("longest shot", fmt::format("{:.1f} s", report.longest.value), report.longest);
  fmt::print("{} on a knife edge and {} sunk at the cut prove nothing of the mirror or the cut\n",
             report.knife_edge, report.sank);

  constexpr std::size_t most_listed = 20;
  for (const Broken& broken : report.broken) {
    if (&broken - report.broken.data() == most_listed) {
      fmt::print("and {} more\n", report.broken.size() - most_listed);
      break;
    }
    const SeededShot seeded = seeded_shot(broken.seed);
    fmt::print("BROKEN: the shot of seed {}{} on {}: {}\n", broken.seed, broken.laws,
               seeded.field->table().id, in_code(seeded.balls, seeded.strike));
  }
  fmt::print("{}\n", report.broken.empty() ? "Every law holds."
                                           : fmt::format("{} shots break a law; ./dev soak --first "
                                                         "SEED --shots 1 plays one again.",
                                                         report.broken.size()));
}

int run(int argc, char** argv) {
  Options options;
  CLI::App app("Plays very many seeded shots and holds each to the laws (tests/laws/laws.h).",
               "./dev soak");
  app.add_option("--shots", options.shots, "How many")
      ->capture_default_str()
      ->check(CLI::PositiveNumber);
  app.add_option("--first", options.first, "Seed of the first")->capture_default_str();
  app.add_option("--threads", options.threads, "How many play at once")
      ->capture_default_str()
      ->check(CLI::PositiveNumber);
  CLI11_PARSE(app, argc, argv);
  const Report report = soak(options);
  print(report, options);
  return report.broken.empty() ? 0 : 1;
}

}  // namespace
}  // namespace ahead::test

int main(int argc, char** argv) { return ahead::test::run(argc, argv); }
