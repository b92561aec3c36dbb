#include "formats/trial.h"

#include <cstddef>
#include <span>
#include <string_view>

#include <nlohmann/json.hpp>

#include "formats/json_print.h"
#include "formats/names.h"
#include "formats/shot_option.h"
#include "formats/values.h"

// The keys of the first policy stand at the top; rivals have the same ones and their ratio.
namespace ahead::formats {
namespace {

using nlohmann::ordered_json;

ordered_json fraction(double value) { return rounded(value, 4); }

ordered_json interval(double low, double high) {
  return ordered_json::array({fraction(low), fraction(high)});
}

/// Tenths without a case are left out.
ordered_json json_of(std::span<const coach::Foretold> foretold) {
  ordered_json json = ordered_json::array();
  const auto tenths = coach::calibration(foretold);
  for (std::size_t i = 0; i < tenths.size(); ++i) {
    const coach::Tenth& tenth = tenths[i];
    if (tenth.cases == 0) continue;
    const auto edge = static_cast<double>(i);
    json.push_back({{"from", rounded(edge / 10, 1)},
                    {"to", rounded((edge + 1) / 10, 1)},
                    {"cases", tenth.cases},
                    {"stated", fraction(tenth.stated)},
                    {"actual", fraction(tenth.actual.value)},
                    {"interval", interval(tenth.actual.low, tenth.actual.high)}});
  }
  return json;
}

ordered_json json_of(const coach::LayoutRow& row) {
  return {{"name", row.name},
          {"colour", name_of(row.colour)},
          {"runs", row.runs},
          {"cleared", row.cleared},
          {"stated", row.stated ? formats::json_of(*row.stated) : ordered_json(nullptr)}};
}

void put(ordered_json& json, const coach::PolicyReport& report) {
  const coach::Tally& tally = report.tally;
  const coach::Chance rate = coach::chance_of(tally.cleared, tally.runs);
  json["policy"] = name_of(report.policy);
  json["runs"] = tally.runs;
  json["cleared"] = tally.cleared;
  json["rate"] = fraction(rate.value);
  json["interval"] = interval(rate.low, rate.high);
  json["shots"] = tally.shots;
  for (std::size_t i = 1; i < tally.outcomes.size(); ++i) {
    json["failures"][std::string(outcome_names[i])] = tally.outcomes[i];
  }
  json["ended_with"] = tally.ended_with;
  json["calibration"] = {{"pots", json_of(tally.pots)},
                         {"clearances", json_of(tally.clearances)},
                         {"values", json_of(tally.worths)}};
  json["layouts"] = ordered_json::array();
  for (const coach::LayoutRow& row : report.layouts) json["layouts"].push_back(json_of(row));
  json["simulated_shots"] = tally.simulated_shots;
}

}  // namespace

std::string write_trial(const coach::TrialReport& report) {
  const coach::PolicyReport& first = report.policies.front();
  ordered_json json;
  json["format"] = trial_format;
  json["player"] = json_of(report.player);
  json["seed"] = report.seed;
  json["runs_a_layout"] = report.runs;
  put(json, first);
  json["rivals"] = ordered_json::array();
  for (std::size_t i = 1; i < report.policies.size(); ++i) {
    const coach::PolicyReport& rival = report.policies[i];
    const coach::Ratio ratio = coach::ratio_of(first.tally, rival.tally);
    ordered_json entry;
    put(entry, rival);
    entry["ratio"] = {{"value", fraction(ratio.value)},
                      {"low", fraction(ratio.low)},
                      {"high", fraction(ratio.high)}};
    json["rivals"].push_back(std::move(entry));
  }
  return print_json(json);
}

}  // namespace ahead::formats
