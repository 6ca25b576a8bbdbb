// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <CLI/CLI.hpp>

#include <string>

namespace bw {

struct MeasureArguments {
  std::string file;
  std::string json;
};

/// Adds the verb `measure`; its arguments are filled in by parsing. What its file holds stands in core/learn/measurements_file.h too.
CLI::App* addMeasure(CLI::App& app, MeasureArguments& arguments);

/// Runs it. Returns the exit status.
int measureFile(const MeasureArguments& arguments);

}  // namespace bw
