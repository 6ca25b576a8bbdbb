// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/machine_limits.h"
#include "core/assess/verdict_rows.h"
#include "core/assess/work.h"
#include "core/removal/coat_layer.h"
#include "core/text/text.h"

#include <algorithm>

namespace bw {

namespace {

using namespace text;

/// A layer thinner than light gets into it, which would need more to leave by itself than the metal beneath bears; nothing where there is
/// none.
const LayerResult* clearLayer(const Work& work, const Assessment& assessment) {
  const auto& melting = assessment.finish.meltFluence_J_m2;
  const auto& layers = assessment.removal.layers;
  for (std::size_t i = 0; melting && i < std::min(layers.size(), work.coat.size()); ++i) {
    const bool clear = work.coat[i].opticalDepth_m.likely > work.coat[i].thickness_m.likely;
    if (clear && !layers[i].kept && layers[i].thresholdFluence_J_m2.value_or(0) > *melting) return &layers[i];
  }
  return nullptr;
}

/// What stands in the way of the machine whatever it is set to.
std::string standsInTheWay(const Work& work) {
  std::string text;
  for (const MachineFinding& finding : machineFindings(work.project, work.machine, withinMachine(work.machine, work.settings())))
    if (finding.status == Status::Fails) text += " " + finding.message;
  return text;
}

}  // namespace

std::string leftText(const Work& work, const Assessment& assessment) {
  const auto& layers = assessment.removal.layers;
  const int planned = work.settings().passes;
  for (std::size_t i = 0; i < std::min(layers.size(), work.coat.size()); ++i) {
    if (layers[i].kept || (layers[i].passes && *layers[i].passes <= planned)) continue;
    const LayerMaterial& material = work.coat[i];
    const bool smears = material.behaviour == Behaviour::Softens && assessment.beam.peakIrradiance_W_m2 < blowsResidueOff_W_m2;
    if (!smears) return " The first layer to stay is \"" + layers[i].name + "\".";
    return " \"" + layers[i].name + "\" softens: about " + percent(material.residueShare.likely) +
           " of it stays as residue in each pass; pulses of a higher peak power blow it off.";
  }
  return "";
}

std::string whyNot(const Work& work, const Assessment& assessment) {
  if (work.project.part.finish != Finish::Untouched || !assessment.finish.melts.value_or(false)) return "";
  const LayerResult* layer = clearLayer(work, assessment);
  if (layer == nullptr) return "";
  return "Not with this beam: \"" + layer->name + "\" lets it through, so the metal beneath takes the heat. It melts from " +
         fluence(*assessment.finish.meltFluence_J_m2) + " in a pulse; the coat by itself would need " +
         fluence(*layer->thresholdFluence_J_m2) + "." + standsInTheWay(work);
}

}  // namespace bw
