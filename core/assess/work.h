// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assess.h"
#include "core/dose/repeat_cell.h"
#include "core/materials/resolve.h"
#include "core/removal/bare_metal.h"
#include "core/scan/path.h"
#include "core/values/crew.h"

#include <optional>

namespace bw {

struct BareHeat;
struct DoseFound;
struct StageMemo;

/// What machine and settings give, whatever the beam falls on.
struct ScanWork {
  BeamResult beam;
  OverlapResult overlap;
  std::optional<Frame> frame;  // nothing where it would have too many pieces
  std::optional<Travel> travel;
  Emission emission;
  LitBounds lit{};                                       // where the beam's centre goes while lit
  std::shared_ptr<const std::vector<DabRow>> rows = {};  // of one frame; nothing where there would be too many
  std::vector<DabRow> strikes = {};                      // the same with every pulse by itself; empty where there would be too many
  std::vector<PathPoint> path;
  std::string whyNoDose;
  std::vector<std::string> notes;
};

/// What an assessment keeps of its work for a look in depth.
struct Physics {
  std::shared_ptr<const ScanWork> scan;
  std::shared_ptr<const BareHeat> bare;
};

/// What one assessment works with while it is made: the inputs resolved, and what one stage leaves for the next.
struct Work {
  const Project& project;
  const Plan& plan;
  const Library& shipped;
  Step step;
  Machine machine;  // with the step's optic put in
  Metal metal;
  std::vector<LayerMaterial> coat;
  std::stop_token stop;
  Crew crew = {};  // who works beside
  SceneRequest scene = {};

  StageMemo* memo = nullptr;  // nothing: every stage is made anew

  std::shared_ptr<const ScanWork> scan = {};
  std::shared_ptr<const std::vector<Place>> places = {};  // found beside the heat
  std::shared_ptr<const BareHeat> bare = {};  // the tour's heat as if all were bare; nothing where the hand stands still
  bool strippingKnown = false;
  double nearBare_C = 0;

  const Settings& settings() const { return step.settings; }
  bool pulsed() const { return machine.kind == MachineKind::Pulsed; }
};

/// Throws Unusable where there is no such plan or machine, or a number cannot be meant.
Work prepare(const Project& project, const std::string& planName, const Library& shipped, std::stop_token stop);

/// The same with other settings. Throws Unusable where one makes no sense.
Work withSettings(const Work& work, const Settings& settings);

// The stages, in the order they run. Each fills its part of the assessment and adds to the notes what it left out.
void assessScan(Work& work, Assessment& assessment);
void assessDose(Work& work, Assessment& assessment);
void assessBareHeat(Work& work, Assessment& assessment);
void assessRemoval(Work& work, Assessment& assessment);
void assessLimits(Work& work, Assessment& assessment);
void assessFinish(Work& work, Assessment& assessment);
void assessJob(Work& work, Assessment& assessment);

// What they are made from, from the memo where it is known.
std::shared_ptr<const ScanWork> scanned(const Work& work);
std::shared_ptr<const DoseFound> doseFound(const Work& work);
void takeDose(const Work& work, const DoseFound& found, Assessment& assessment);

/// When this machine gives energy with these settings. A gate whose dashes the spot blurs (half a spot radius apart and closer, 5e-9 of
/// ripple) is left out.
Emission emissionOf(const Machine& machine, const Settings& settings, const BeamResult& beam);

/// Rows of the verdict and what to find out next, from the numbers.
void judge(const Work& work, Assessment& assessment);

/// Verdict, workings, answer and the notes on what the model leaves out, from the numbers; those given before are replaced.
void conclude(const Work& work, Assessment& assessment);

/// The one sentence of the answer line.
std::string answerLine(const Work& work, const Assessment& assessment);

/// Bare metal as the beam meets it: likely properties, with the given absorptance and temperature before a pulse.
BareMetal bareMetal(const Metal& metal, double absorptance, double before_C);

}  // namespace bw
