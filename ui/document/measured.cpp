// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/measured.h"

namespace bw {
namespace {

bool isMeasured(KnownFrom from) { return from == KnownFrom::Gauge || from == KnownFrom::Patch; }

}  // namespace

MeasuredCount countMeasured(const Project& project, const Machine* machine) {
  MeasuredCount count;
  const auto add = [&count](bool measured) {
    ++count.all;
    count.measured += measured ? 1 : 0;
  };
  const auto metal = project.part.knownFrom.find("thickness_mm");
  add(metal != project.part.knownFrom.end() && isMeasured(metal->second));
  for (const Layer& layer : project.coat) add(layer.knownFrom && isMeasured(*layer.knownFrom));
  add(machine && machine->deliveredPower_W);
  return count;
}

}  // namespace bw
