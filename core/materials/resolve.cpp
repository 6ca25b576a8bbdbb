// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/materials/resolve.h"

#include "core/materials/kubelka_munk.h"
#include "core/values/unusable.h"

#include <algorithm>
#include <iterator>

namespace bw {
namespace {

const Coating* findCoating(const std::string& id, const Library& project, const Library& shipped) {
  const Coating* own = findCoating(project, id);
  return own ? own : findCoating(shipped, id);
}

const Coating& coatingOf(const Layer& layer, const Library& project, const Library& shipped) {
  const Coating* coating = findCoating(layer.coating, project, shipped);
  if (!coating) {
    throw Unusable("layer \"" + layer.name + "\" is of a coating nobody knows (\"" + layer.coating +
                   "\"): name one of the library, or \"unknown\"");
  }
  return *coating;
}

const Substrate& substrateOf(const Part& part, const Library& project, const Library& shipped) {
  const Substrate* substrate = findSubstrate(project, part.substrate);
  if (!substrate) substrate = findSubstrate(shipped, part.substrate);
  if (!substrate) {
    throw Unusable("the part is of a metal nobody knows (\"" + part.substrate + "\"): name one of the library, or \"unknown-metal\"");
  }
  return *substrate;
}

/// A layer may behave in a way that its coating was not described for; the wide range of the unknown coating then stands in.
Range stateOrFallback(const std::optional<Range>& stated, std::optional<Property> Coating::*member, const Coating& coating,
                      const Coating* unknown) {
  if (stated) return *stated;
  if (coating.*member) return (coating.*member)->range;
  if (unknown && unknown->*member) return (unknown->*member)->range;
  throw Unusable("coating \"" + coating.id + "\" lacks what its behaviour needs: state residue_share or absorptance_after_heating");
}

/// Absorptance and depth that the layer states replace the scattering coefficients of the library, which would contradict them.
/// S falls and K rises with absorptance, both fall with depth.
void keepScatteringConsistent(LayerMaterial& material, const CoatingOverrides& own) {
  if (!material.scattering_1_m || (!own.absorptance && !own.opticalDepth_m)) return;
  const auto film = [](double absorptance, double depth_m) {
    return kubelkaMunkFrom(std::max(absorptance, 0.001), depth_m);  // a film that absorbs nothing has no finite depth
  };
  const Range& share = material.absorptance;
  const Range& depth_m = material.opticalDepth_m;
  const auto likely = film(share.likely, depth_m.likely);
  material.scattering_1_m =
      Range{film(share.high, depth_m.high).scattering_1_m, likely.scattering_1_m, film(share.low, depth_m.low).scattering_1_m};
  material.absorption_1_m =
      Range{film(share.low, depth_m.high).absorption_1_m, likely.absorption_1_m, film(share.high, depth_m.low).absorption_1_m};
}

/// An entry that a project took along before this limit was known has it from the shipped entry it was taken from.
template <class Entry>
std::optional<Property> limitOf(const Entry& entry, std::optional<Property> Entry::*limit, const Entry* shipped) {
  return !(entry.*limit) && shipped ? shipped->*limit : entry.*limit;
}

}  // namespace

LayerMaterial resolveLayer(const Layer& layer, const Library& project, const Library& shipped) {
  const Coating& coating = coatingOf(layer, project, shipped);
  const Coating* unknown = findCoating("unknown", project, shipped);
  const CoatingOverrides& own = layer.overrides;
  LayerMaterial material;
  material.name = layer.name;
  material.coating = layer.coating;
  material.thickness_m = layer.thickness_m;
  material.keep = layer.keep;
  material.unknown = coating.unknown;
  material.absorptance = own.absorptance.value_or(coating.absorptance.range);
  material.opticalDepth_m = own.opticalDepth_m.value_or(coating.opticalDepth_m.range);
  material.removalEnthalpy_J_m3 = own.removalEnthalpy_J_m3.value_or(coating.removalEnthalpy_J_m3.range);
  material.removalTemperature_C = coating.removalTemperature_C.range;
  material.ejectionTime_s = coating.ejectionTime_s.range;
  material.conductivity_W_mK = own.conductivity_W_mK.value_or(coating.conductivity_W_mK.range);
  material.density_kg_m3 = own.density_kg_m3.value_or(coating.density_kg_m3.range);
  material.specificHeat_J_kgK = own.specificHeat_J_kgK.value_or(coating.specificHeat_J_kgK.range);
  material.behaviour = layer.behaviour.value_or(coating.behaviour);
  if (material.behaviour == Behaviour::Softens) {
    material.residueShare = stateOrFallback(layer.residueShare, &Coating::residueShare, coating, unknown);
  }
  material.absorptanceAfterHeating = material.absorptance;
  if (material.behaviour == Behaviour::Scorches) {
    material.absorptanceAfterHeating = stateOrFallback(layer.absorptanceAfterHeating, &Coating::absorptanceAfterHeating, coating, unknown);
  }
  if (coating.scattering_1_m && coating.absorption_1_m) {
    material.scattering_1_m = coating.scattering_1_m->range;
    material.absorption_1_m = coating.absorption_1_m->range;
  }
  keepScatteringConsistent(material, own);
  material.components = layer.components;  // what the layer says wins,
  material.components.insert(coating.components.begin(), coating.components.end());
  material.melts_C = limitOf(coating, &Coating::melts_C, findCoating(shipped, coating.id));
  return material;
}

std::vector<LayerMaterial> resolveCoat(const Coat& coat, const Library& project, const Library& shipped) {
  std::vector<LayerMaterial> materials;
  std::ranges::transform(coat, std::back_inserter(materials), [&](const Layer& layer) { return resolveLayer(layer, project, shipped); });
  return materials;
}

Metal resolveMetal(const Part& part, const Library& project, const Library& shipped) {
  const Substrate& substrate = substrateOf(part, project, shipped);
  const SubstrateOverrides& own = part.substrateProperties;
  Metal metal;
  metal.id = substrate.id;
  metal.name = substrate.name;
  metal.family = substrate.family;
  metal.conductivityCurve = own.conductivity_W_mK ? ThermalCurve::Constant : substrate.curve;
  metal.specificHeatCurve = own.specificHeat_J_kgK ? ThermalCurve::Constant : substrate.curve;
  metal.absorptance = own.absorptance.value_or(substrate.absorptance.range);
  if (substrate.refractiveIndex && substrate.extinctionCoefficient) {
    metal.refractiveIndex = substrate.refractiveIndex->range;
    metal.extinctionCoefficient = substrate.extinctionCoefficient->range;
  }
  metal.conductivity_W_mK = own.conductivity_W_mK.value_or(substrate.conductivity_W_mK.range);
  metal.density_kg_m3 = own.density_kg_m3.value_or(substrate.density_kg_m3.range);
  metal.specificHeat_J_kgK = own.specificHeat_J_kgK.value_or(substrate.specificHeat_J_kgK.range);
  metal.melting_C = own.melting_C ? Property{*own.melting_C, "stated by the project", false} : substrate.melting_C;
  metal.boiling_C = substrate.boiling_C.range;
  metal.vaporisation_J_m3 = substrate.vaporisation_J_m3.range;
  metal.expansion_1_K = substrate.expansion_1_K.range;
  metal.youngsModulus_Pa = substrate.youngsModulus_Pa.range;
  metal.poissonRatio = substrate.poissonRatio.range;
  metal.yield_Pa = substrate.yield_Pa.range;
  metal.tint_C = substrate.tint_C;
  metal.hardening_C = substrate.hardening_C;
  metal.temper_C = substrate.temper_C;
  metal.platingMelts_C = substrate.platingMelts_C;
  metal.partBoils_C = limitOf(substrate, &Substrate::partBoils_C, findSubstrate(shipped, substrate.id));
  return metal;
}

bool isSameStuff(LayerMaterial a, const LayerMaterial& b) {
  a.name = b.name;
  a.thickness_m = b.thickness_m;
  a.keep = b.keep;
  return a == b;
}

}  // namespace bw
