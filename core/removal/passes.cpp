// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/passes.h"

#include "core/values/stopped.h"

#include <algorithm>

namespace bw {

namespace {

/// What one place looks like after each pass: thickness left of every layer.
struct PlaceRun {
  std::vector<std::vector<double>> left_m;  // [pass][layer]; pass 0 is the start; the last entry holds for all later ones
  EnergyAccount plan;                       // after the plan's passes
  double etch_m = 0;

  const std::vector<double>& after(int pass) const { return left_m[std::min(static_cast<std::size_t>(pass), left_m.size() - 1)]; }
};

template <class Model>
std::vector<double> leftOf(const Model& model, std::size_t layers) {
  std::vector<double> left;
  for (std::size_t i = 0; i < layers; ++i) left.push_back(model.left_m(i));
  return left;
}

void onePass(Ledger& ledger, const Place& place, const PassRhythm& rhythm, const std::stop_token& stop) {
  ledger.beginPass();
  double now = 0;
  std::size_t n = 0;
  for (const Hit& hit : place.hits) {
    if ((++n & 0xff) == 0) throwIfStopped(stop);
    ledger.rest(hit.time_s - now);
    ledger.pulse(hit.fluence_J_m2, rhythm.pulseDuration_s);
    now = hit.time_s + rhythm.pulseDuration_s;  // the pulse has rested for its own duration
  }
  ledger.rest(std::max(0.0, rhythm.passTime_s - now));
}

void onePass(Column& column, const Place& place, const PassRhythm& rhythm, const std::stop_token& stop) {
  double now = 0;
  for (const Hit& hit : place.hits) {
    throwIfStopped(stop);
    column.rest(std::max(0.0, hit.time_s - now));
    column.shine(hit.fluence_J_m2, hit.duration_s);
    now = hit.time_s + hit.duration_s;
  }
  column.rest(std::max(0.0, rhythm.passTime_s - now));
}

/// Pass after pass with one of the two models of a point.
template <class Model>
PlaceRun runPlace(Model model, std::size_t layers, const Place& place, const PassRhythm& rhythm, const std::stop_token& stop) {
  PlaceRun run;
  run.left_m.push_back(leftOf(model, layers));
  int idle = 0;  // passes in a row that moved nothing: from then on each is like the last
  for (int pass = 1; pass <= std::max(mostPasses, rhythm.passes); ++pass) {
    throwIfStopped(stop);
    if (pass > rhythm.passes && (model.isBare() || idle >= 2)) break;
    const double before = model.depth_m();
    onePass(model, place, rhythm, stop);
    run.left_m.push_back(leftOf(model, layers));
    idle = model.depth_m() - before < 1e-12 ? idle + 1 : 0;
    if (pass == rhythm.passes) {
      run.plan = model.energy();
      run.etch_m = model.etch_m();
    }
  }
  return run;
}

/// The smallest number of passes after which `isClear(left)` holds over at least 99 % of the cell.
template <class IsClear>
std::optional<int> passesUntil(const std::vector<Place>& places, const std::vector<PlaceRun>& runs, IsClear isClear) {
  for (int pass = 0; pass <= mostPasses; ++pass) {
    double share = 0;
    for (std::size_t i = 0; i < places.size(); ++i) share += isClear(runs[i].after(pass)) ? places[i].share : 0;
    if (share >= clearShare - 1e-9) return pass;
  }
  return std::nullopt;
}

bool clearOfUnkept(const std::vector<LayerMaterial>& coat, const std::vector<double>& left) {
  for (std::size_t i = 0; i < coat.size(); ++i) {
    if (!coat[i].keep && left[i] > 0) return false;
  }
  return true;
}

PlaceHistory historyOf(const Place& place, const PlaceRun& run, const std::vector<LayerMaterial>& coat, int passes) {
  PlaceHistory history;
  history.share = place.share;
  history.dose_J_m2 = place.dose_J_m2;
  history.across_m = place.across_m;
  history.along_m = place.along_m;
  const auto& start = run.left_m.front();
  for (int pass = 0; pass <= passes; ++pass) {
    double gone = 0;
    for (std::size_t i = 0; i < start.size(); ++i) gone += start[i] - run.after(pass)[i];
    history.depth_m.push_back(gone);
  }
  for (int pass = 0; pass <= mostPasses && !history.passesToClear; ++pass) {
    if (clearOfUnkept(coat, run.after(pass))) history.passesToClear = pass;
  }
  return history;
}

LayerResult layerResult(std::size_t index, const std::vector<LayerMaterial>& coat, const std::vector<Place>& places,
                        const std::vector<PlaceRun>& runs, const PassRhythm& rhythm) {
  LayerResult result;
  result.name = coat[index].name;
  result.thickness_m = coat[index].thickness_m.likely;
  result.kept = coat[index].keep;
  for (std::size_t i = 0; i < places.size(); ++i) {
    result.removed_m += places[i].share * (result.thickness_m - runs[i].after(rhythm.passes)[index]);
    result.reachableShare += runs[i].after(mostPasses)[index] <= 0 ? places[i].share : 0;
  }
  result.passes = passesUntil(places, runs, [&](const std::vector<double>& left) {
    return std::all_of(left.begin(), left.begin() + static_cast<std::ptrdiff_t>(index) + 1, [](double l) { return l <= 0; });
  });
  return result;
}

}  // namespace

CoatLayer coatLayer(const LayerMaterial& material, double start_C) {
  CoatLayer layer;
  layer.thickness_m = material.thickness_m.likely;
  layer.absorptance = material.absorptance.likely;
  layer.opticalDepth_m = material.opticalDepth_m.likely;
  if (material.scattering_1_m && material.absorption_1_m) {
    const KubelkaMunk film{material.absorption_1_m->likely, material.scattering_1_m->likely};
    layer.absorptance = 1 - thickReflectance(film);
    layer.opticalDepth_m = opticalDepth_m(film);
  }
  layer.behaviour = material.behaviour;
  layer.residueShare = material.residueShare.likely;
  layer.absorptanceAfterHeating = material.absorptanceAfterHeating.likely;
  layer.removalEnthalpy_J_m3 = material.removalEnthalpy_J_m3.likely;
  layer.ejectionTime_s = material.ejectionTime_s.likely;
  layer.heatCapacity_J_m3K = material.density_kg_m3.likely * material.specificHeat_J_kgK.likely;
  layer.diffusivity_m2_s = material.conductivity_W_mK.likely / layer.heatCapacity_J_m3K;
  layer.removalRise_K = std::max(1.0, material.removalTemperature_C.likely - start_C);
  return layer;
}

PassesOutcome runPasses(const std::vector<LayerMaterial>& coat, const BareMetal& metal, double thickness_m,
                        const std::vector<Place>& places, const PassRhythm& rhythm, std::stop_token stop) {
  std::vector<CoatLayer> layers;
  for (const LayerMaterial& material : coat) layers.push_back(coatLayer(material, metal.start_C));
  const CoatedMetal part(layers, metal);
  std::vector<PlaceRun> runs;
  for (const Place& place : places) {
    runs.push_back(rhythm.pulseDuration_s > 0 ? runPlace(Ledger(part), coat.size(), place, rhythm, stop)
                                              : runPlace(Column(layers, metal, thickness_m, stop), coat.size(), place, rhythm, stop));
  }

  PassesOutcome out;
  RemovalResult& removal = out.removal;
  removal.computed = true;
  removal.passesNeeded = passesUntil(places, runs, [&](const std::vector<double>& left) { return clearOfUnkept(coat, left); });
  for (std::size_t i = 0; i < coat.size(); ++i) removal.layers.push_back(layerResult(i, coat, places, runs, rhythm));

  const int shown = std::max({rhythm.passes, removal.passesNeeded.value_or(0), 3}) + 2;
  double cleared = 0;
  EnergyAccount mean;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double share = places[i].share;
    removal.places.push_back(historyOf(places[i], runs[i], coat, std::min(shown, mostPasses)));
    cleared += clearOfUnkept(coat, runs[i].after(rhythm.passes)) ? share : 0;
    mean.delivered += share * runs[i].plan.delivered;
    mean.intoPart += share * runs[i].plan.intoPart;
    mean.deliveredBare += share * runs[i].plan.deliveredBare;
    mean.intoPartBare += share * runs[i].plan.intoPartBare;
    out.etch_m = std::max(out.etch_m, runs[i].etch_m);
  }
  removal.clearedFraction = cleared;
  if (mean.delivered > 0) removal.heatIntoPartFraction = mean.intoPart / mean.delivered;
  const double onCoat = mean.delivered - mean.deliveredBare;
  out.strippingShare = onCoat > 0 ? (mean.intoPart - mean.intoPartBare) / onCoat : 0;
  return out;
}

}  // namespace bw
