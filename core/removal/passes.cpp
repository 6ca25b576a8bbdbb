// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/passes.h"

#include "core/removal/joined_layers.h"
#include "core/removal/ledger.h"
#include "core/values/stopped.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace bw {

namespace {

template <class Model>
std::vector<double> leftOf(const Model& model, std::size_t layers) {
  std::vector<double> left;
  for (std::size_t i = 0; i < layers; ++i) left.push_back(model.left_m(i));
  return left;
}

/// A gap without light. After a second and more heat in the metal has spread sideways, which a column does not know.
void restFor(Ledger& ledger, double gap_s) { ledger.rest(std::max(0.0, gap_s)); }
void restFor(Column& column, double gap_s) {
  constexpr double spreads_s = 1;
  column.rest(std::clamp(gap_s, 0.0, spreads_s));
  if (gap_s >= spreads_s) column.coolDown();
}

void strike(Ledger& ledger, double fluence_J_m2, double duration_s) { ledger.pulse(fluence_J_m2, duration_s); }
void strike(Column& column, double fluence_J_m2, double duration_s) { column.shine(fluence_J_m2, duration_s); }

/// A step of a column's cell takes as long as a twenty-fifth of a pulse.
double workOf(const Ledger& ledger) { return ledger.work(); }
double workOf(const Column& column) { return 0.04 * static_cast<double>(column.steps()) * static_cast<double>(column.cells().size()); }

/// The hits of a place pass after pass, at the hand's pace: a fast hand leaves every so many out, a slow one repeats them, evenly over the
/// pass.
template <class Model>
class Course {
 public:
  Course(Model model, const std::vector<bool>& kept, const Place& place, const PassRhythm& rhythm, const std::stop_token& stop)
      : m_model(std::move(model)), m_kept(kept), m_place(place), m_rhythm(rhythm), m_stop(stop) {
    for (std::size_t i = 0; i < kept.size(); ++i)
      if (!kept[i]) m_lowest = i + 1;
  }

  PlaceRun run() {
    m_run.left_m.push_back(leftOf(m_model, m_kept.size()));
    if (m_lowest == 0) m_run.clearAfter = 0;
    const int last = m_rhythm.onlyPlanned ? m_rhythm.passes : std::max(mostPasses, m_rhythm.passes);
    for (int pass = 1; pass <= last; ++pass) {
      throwIfStopped(m_stop);
      if (pass > m_rhythm.passes && std::isfinite(m_run.clearAfter)) break;
      if (m_rhythm.onlyPlanned && m_lowest == m_kept.size() && std::isfinite(m_run.clearAfter)) break;
      const double dose = m_idle_J_m2 >= 0 ? doseOf(m_place.hitsOf(pass)) : 0;
      if (m_idle_J_m2 >= 0 && dose <= m_idle_J_m2)
        m_energy += m_idlePass * (dose / m_idle_J_m2);
      else
        follow(pass);
      m_run.left_m.push_back(leftOf(m_model, m_kept.size()));
      if (pass <= m_rhythm.passes) m_run.after_J_m2.push_back(m_energy);
      if (pass == m_rhythm.passes) {
        m_run.plan = m_energy;
        m_run.etch_m = m_etch;
      }
    }
    m_run.work = workOf(m_model);
    return std::move(m_run);
  }

 private:
  /// Bare metal still wears under light that moves nothing else.
  void follow(int pass) {
    const double before = m_model.progress_m();
    const EnergyAccount energy = m_model.energy();
    const double etch = m_model.etch_m(), weight = m_model.isBare() ? 1 / m_rhythm.pace : 1;
    onePass(pass);
    const EnergyAccount brought = (m_model.energy() - energy) * weight;
    m_energy += brought;
    m_etch += weight * (m_model.etch_m() - etch);
    const double dose = doseOf(m_place.hitsOf(pass));
    if (m_model.isBare() || m_model.progress_m() - before >= 1e-12) {
      m_idle_J_m2 = -1;
    } else if (dose > std::max(0.0, m_idle_J_m2)) {
      m_idle_J_m2 = dose;
      m_idlePass = brought;
    }
  }

  void onePass(int pass) {
    if (m_model.isBare()) return onBare(m_place.hitsOf(pass));
    m_model.beginPass();
    const std::vector<Hit>& hits = m_place.hitsOf(pass);
    const auto count = static_cast<double>(hits.size());
    const double offered = m_offered;
    m_offered += count;
    const auto first = static_cast<std::size_t>(offered / m_rhythm.pace + 0.5),
               end = static_cast<std::size_t>(m_offered / m_rhythm.pace + 0.5);
    double now = 0;
    for (std::size_t n = first; n < end; ++n) {
      if ((n & 0xff) == 0) throwIfStopped(m_stop);
      const double place = std::clamp((static_cast<double>(n) + 0.5) * m_rhythm.pace - offered, 0.0, count * (1 - 1e-12));
      const Hit& hit = hits[static_cast<std::size_t>(place)];
      const double time = timeAt(hits, place), duration = m_rhythm.pulseDuration_s > 0 ? m_rhythm.pulseDuration_s : hit.duration_s;
      restFor(m_model, time - now);
      strike(m_model, m_rhythm.change(hit), duration);
      now = std::max(now, time) + duration;  // a pulse has rested for its own duration
      if (std::isinf(m_run.clearAfter) && m_lowest > 0 && m_model.left_m(m_lowest - 1) <= 0)
        m_run.clearAfter = pass - 1 + static_cast<double>(n + 1 - first) / static_cast<double>(end - first);
    }
    restFor(m_model, m_rhythm.passTime_s / m_rhythm.pace - now);
  }

  /// Metal remembers nothing: every hit once, whatever the hand's pace.
  void onBare(const std::vector<Hit>& hits) {
    m_offered += static_cast<double>(hits.size());
    for (const Hit& hit : hits)
      strike(m_model, m_rhythm.change(hit), m_rhythm.pulseDuration_s > 0 ? m_rhythm.pulseDuration_s : hit.duration_s);
  }

  /// When a strike comes: that of its hit, those between two hits in between.
  double timeAt(const std::vector<Hit>& hits, double place) const {
    const auto i = static_cast<std::size_t>(place);
    const double here = hits[i].time_s;
    if (m_rhythm.pace == 1) return here;
    const double next = i + 1 < hits.size() ? hits[i + 1].time_s : here;
    return std::lerp(here, next, place - static_cast<double>(i)) / m_rhythm.pace;
  }

  Model m_model;
  const std::vector<bool>& m_kept;
  const Place& m_place;
  const PassRhythm& m_rhythm;
  const std::stop_token& m_stop;
  std::size_t m_lowest = 0;  // layers down to here are to go
  double m_offered = 0;      // hits of the passes so far, at the pace they were found for
  double m_idle_J_m2 = -1;   // most that a pass has brought since anything moved; below 0: the last one did
  EnergyAccount m_idlePass;  // what became of that
  EnergyAccount m_energy;    // of all passes, those that were not followed too
  double m_etch = 0;         // likewise
  PlaceRun m_run;
};

/// The smallest number of passes after which `isClear(left)` holds over at least 99 % of the surface.
template <class IsClear>
std::optional<int> passesUntil(const std::vector<Place>& places, const std::vector<PlaceRun>& runs, IsClear isClear) {
  for (int pass = 0; pass <= mostPasses; ++pass) {
    double share = 0;
    for (std::size_t i = 0; i < places.size(); ++i) share += isClear(runs[i].after(pass)) ? places[i].share : 0;
    if (share >= clearShare - 1e-9) return pass;
  }
  return std::nullopt;
}

PlaceHistory historyOf(const Place& place, const PlaceRun& run, const std::vector<bool>& kept, int passes) {
  PlaceHistory history;
  history.share = place.share;
  history.dose_J_m2 = place.dose_J_m2;
  history.work = run.work;
  const auto& start = run.left_m.front();
  for (int pass = 0; pass <= passes; ++pass) {
    double gone = 0;
    for (std::size_t i = 0; i < start.size(); ++i) gone += start[i] - run.after(pass)[i];
    history.depth_m.push_back(gone);
  }
  for (int pass = 0; pass <= mostPasses && !history.passesToClear; ++pass) {
    if (clearOfUnkept(kept, run.after(pass))) history.passesToClear = pass;
  }
  return history;
}

constexpr double keptLossShare = 0.1;  // of a layer that should stay: more is a loss. Our own working limit, no source

LayerResult layerResult(std::size_t index, const std::string& name, double thickness_m, bool kept, const std::vector<Place>& places,
                        const std::vector<PlaceRun>& runs, int passes) {
  LayerResult result;
  result.name = name;
  result.thickness_m = thickness_m;
  result.kept = kept;
  for (std::size_t i = 0; i < places.size(); ++i) {
    result.removed_m += places[i].share * (thickness_m - runs[i].after(passes)[index]);
    result.reachableShare += runs[i].after(mostPasses)[index] <= 0 ? places[i].share : 0;
  }
  result.lost = kept && result.removed_m > keptLossShare * thickness_m;
  result.passes = passesUntil(places, runs, [&](const std::vector<double>& left) {
    return std::all_of(left.begin(), left.begin() + static_cast<std::ptrdiff_t>(index) + 1, [](double l) { return l <= 0; });
  });
  return result;
}

/// Means over the places; a run that stopped early because nothing moved any more goes on as in its last pass.
std::vector<double> passShares(const std::vector<Place>& places, const std::vector<PlaceRun>& runs, int passes) {
  std::vector<double> shares;
  for (int pass = 0; pass < passes; ++pass) {
    double delivered = 0, intoPart = 0;
    for (std::size_t i = 0; i < places.size(); ++i) {
      const auto& after = runs[i].after_J_m2;
      if (after.empty()) continue;
      const std::size_t at = std::min(static_cast<std::size_t>(pass), after.size() - 1);
      const EnergyAccount before = at > 0 ? after[at - 1] : EnergyAccount{};
      delivered += places[i].share * (after[at].delivered - before.delivered);
      intoPart += places[i].share * (after[at].intoPart - before.intoPart);
    }
    shares.push_back(delivered > 0 ? intoPart / delivered : 0);
  }
  return shares;
}

/// Mean over the most etched twentieth of the surface: at lines' turns and in overlaps. The single deepest point would be chance.
double etchOf(const std::vector<Place>& places, const std::vector<PlaceRun>& runs) {
  constexpr double most = 0.05;
  std::vector<std::pair<double, double>> etches;  // with shares
  for (std::size_t i = 0; i < places.size(); ++i) etches.emplace_back(runs[i].etch_m, places[i].share);
  std::ranges::sort(etches, std::greater());
  double sum = 0, above = 0;
  for (const auto& [etch, share] : etches) {
    const double counted = std::min(share, most - above);
    if (counted <= 0) break;
    sum += counted * etch;
    above += counted;
  }
  return above > 0 ? sum / above : 0;
}

}  // namespace

bool clearOfUnkept(const std::vector<bool>& kept, const std::vector<double>& left_m) {
  for (std::size_t i = 0; i < kept.size(); ++i) {
    if (!kept[i] && left_m[i] > 0) return false;
  }
  return true;
}

PlaceRun runPlace(const CoatedMetal& part, double thickness_m, const std::vector<bool>& kept, const Place& place, const PassRhythm& rhythm,
                  const std::stop_token& stop, const ColumnSettings* column) {
  if (const auto one = joinedLayers(part, kept))
    return one->apart(runPlace(one->part, thickness_m, one->kept, place, rhythm, stop, column), part.coat);
  if (column) return Course(Column(part.coat, part.metal, thickness_m, stop, *column), kept, place, rhythm, stop).run();
  if (rhythm.pulseDuration_s > 0) return Course(Ledger(part), kept, place, rhythm, stop).run();
  return Course(Column(part.coat, part.metal, thickness_m, stop), kept, place, rhythm, stop).run();
}

CoatLayer coatLayer(const LayerMaterial& material, double start_C) {
  CoatLayer layer;
  layer.thickness_m = material.thickness_m.likely;
  constexpr double leastAbsorptance = 0.001, deepest_m = 0.1;  // a film that absorbs nothing has no finite depth
  layer.absorptance = std::max(leastAbsorptance, material.absorptance.likely);
  layer.opticalDepth_m = material.opticalDepth_m.likely;
  if (material.scattering_1_m && material.absorption_1_m) {
    const KubelkaMunk film{material.absorption_1_m->likely, material.scattering_1_m->likely};
    layer.absorptance = std::max(leastAbsorptance, 1 - thickReflectance(film));
    layer.opticalDepth_m = std::min(deepest_m, opticalDepth_m(film));
  }
  layer.behaviour = material.behaviour;
  layer.liftChance = material.liftChance.likely;
  layer.residueShare = material.residueShare.likely;
  layer.absorptanceAfterHeating = material.absorptanceAfterHeating.likely;
  layer.removalEnthalpy_J_m3 = material.removalEnthalpy_J_m3.likely;
  layer.ejectionTime_s = material.ejectionTime_s.likely;
  layer.heatCapacity_J_m3K = material.density_kg_m3.likely * material.specificHeat_J_kgK.likely;
  layer.diffusivity_m2_s = material.conductivity_W_mK.likely / layer.heatCapacity_J_m3K;
  layer.removalRise_K = std::max(1.0, material.removalTemperature_C.likely - start_C);
  return layer;
}

CoatedMetal coatedMetal(const std::vector<LayerMaterial>& coat, const BareMetal& metal) {
  std::vector<CoatLayer> layers;
  for (const LayerMaterial& material : coat) layers.push_back(coatLayer(material, metal.start_C));
  return {std::move(layers), metal};
}

std::vector<bool> keptLayers(const std::vector<LayerMaterial>& coat) {
  std::vector<bool> kept;
  for (const LayerMaterial& material : coat) kept.push_back(material.keep);
  return kept;
}

PassesOutcome summed(const CoatedMetal& part, const std::vector<std::string>& names, const std::vector<bool>& kept,
                     const std::vector<Place>& places, const std::vector<PlaceRun>& runs, int passes) {
  PassesOutcome out;
  RemovalResult& removal = out.removal;
  removal.computed = true;
  removal.passesNeeded = passesUntil(places, runs, [&](const std::vector<double>& left) { return clearOfUnkept(kept, left); });
  for (std::size_t i = 0; i < names.size(); ++i)
    removal.layers.push_back(layerResult(i, names[i], part.coat[i].thickness_m, kept[i], places, runs, passes));

  removal.heatIntoPartByPass = passShares(places, runs, passes);
  const int shown = std::min(mostPasses, std::max({passes, removal.passesNeeded.value_or(0), 3}) + 2);
  removal.clearedAfter.assign(static_cast<std::size_t>(shown) + 1, 0);
  double cleared = 0;
  EnergyAccount mean;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double share = places[i].share;
    removal.places.push_back(historyOf(places[i], runs[i], kept, shown));
    for (int pass = 0; pass <= shown; ++pass)
      removal.clearedAfter[static_cast<std::size_t>(pass)] += clearOfUnkept(kept, runs[i].after(pass)) ? share : 0;
    cleared += clearOfUnkept(kept, runs[i].after(passes)) ? share : 0;
    mean.delivered += share * runs[i].plan.delivered;
    mean.intoPart += share * runs[i].plan.intoPart;
    mean.deliveredBare += share * runs[i].plan.deliveredBare;
    mean.intoPartBare += share * runs[i].plan.intoPartBare;
  }
  out.etch_m = etchOf(places, runs);
  removal.clearedFraction = cleared;
  if (mean.delivered > 0) removal.heatIntoPartFraction = mean.intoPart / mean.delivered;
  return out;
}

double HitChange::operator()(const Hit& hit) const {
  if (areas == 1) return factor * hit.fluence_J_m2;
  const double peak = hit.duration_s > 0 ? peak_W_m2 * hit.duration_s : peak_J_m2;
  return factor * peak * areas * std::pow(hit.fluence_J_m2 / peak, power);
}

std::vector<PlaceRun> runPlaces(const CoatedMetal& part, double thickness_m, const std::vector<bool>& kept,
                                const std::vector<Place>& places, const PassRhythm& rhythm, const std::stop_token& stop, const Crew& crew) {
  std::vector<PlaceRun> runs(places.size());
  crew.share(places.size(), [&](std::size_t i) { runs[i] = runPlace(part, thickness_m, kept, places[i], rhythm, stop); });
  return runs;
}

void sortLastToClearFirst(std::vector<Place>& places, std::vector<PlaceRun>& runs) {
  const auto left = [](const PlaceRun& run) { return std::accumulate(run.left_m.back().begin(), run.left_m.back().end(), 0.0); };
  std::vector<std::size_t> order(places.size());
  std::iota(order.begin(), order.end(), 0);
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) {
    if (runs[a].clearAfter != runs[b].clearAfter) return runs[a].clearAfter > runs[b].clearAfter;
    return left(runs[a]) > left(runs[b]);
  });
  std::vector<Place> sortedPlaces;
  std::vector<PlaceRun> sortedRuns;
  for (const std::size_t i : order) {
    sortedPlaces.push_back(std::move(places[i]));
    sortedRuns.push_back(std::move(runs[i]));
  }
  places = std::move(sortedPlaces);
  runs = std::move(sortedRuns);
}

PassesOutcome runPasses(const std::vector<LayerMaterial>& coat, const BareMetal& metal, double thickness_m, std::vector<Place>& places,
                        const PassRhythm& rhythm, std::stop_token stop, const Crew& crew) {
  const CoatedMetal part = coatedMetal(coat, metal);
  const std::vector<bool> kept = keptLayers(coat);
  std::vector<std::string> names;
  for (const LayerMaterial& material : coat) names.push_back(material.name);
  std::vector<PlaceRun> runs = runPlaces(part, thickness_m, kept, places, rhythm, stop, crew);
  sortLastToClearFirst(places, runs);
  return summed(part, names, kept, places, runs, rhythm.passes);
}

}  // namespace bw
