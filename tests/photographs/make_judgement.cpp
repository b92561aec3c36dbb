#include <chrono>
#include <filesystem>

#include <fmt/format.h>

#include "tests/photographs/judge.h"

// Every photograph of a folder against its truth: make_judgement FOLDER [unmarked].
int main(int argc, char** argv) {
  using ahead::photographs::Given;
  const std::filesystem::path folder = argc > 1 ? argv[1] : "tests/photographs/scenes";
  const Given given = argc > 2 ? Given::nothing : Given::corners;
  ahead::photographs::Tally whole;
  for (const auto& truth : ahead::photographs::read_truth(folder)) {
    const auto from = std::chrono::steady_clock::now();
    const auto tally = ahead::photographs::judged(truth, folder, given);
    const double took =
        std::chrono::duration<double>(std::chrono::steady_clock::now() - from).count();
    fmt::print("{}  {:.2f} s\n", ahead::photographs::line_of(truth.file, tally), took);
    whole += tally;
  }
  fmt::print("{}\n", ahead::photographs::line_of("all", whole));
}
