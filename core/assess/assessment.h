// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/flatness.h"
#include "core/heat/part_map.h"
#include "core/scan/path.h"
#include "core/values/project.h"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace bw {

/// State of a check. NotKnown is what a check says when this version or the inputs cannot tell.
enum class Status { Meets, Near, Fails, NotKnown };

struct BeamResult {
  std::optional<double> pulseEnergy_J;  // pulsed only
  double meanPower_W = 0;               // delivered, after ceilings and duty
  double peakPower_W = 0;
  double spotDiameter_m = 0;  // 1/e2 at the part, with focus offset, untilted
  double rayleighRange_m = 0;
  std::optional<double> peakFluence_J_m2;  // pulsed only
  double peakIrradiance_W_m2 = 0;
};

struct OverlapResult {
  std::optional<double> pulseStep_m;  // pulsed only
  std::optional<double> pulseOverlap;
  std::optional<double> pulsesPerSpot;
  double lineSpacing_m = 0;
  double lineOverlap = 0;
  double framePeriod_s = 0;
  double litFraction = 0;
};

/// Accumulated fluence over a rectangle of the part, row by row. Columns run across the travel, rows along it.
/// Cell (column, row) covers [column, column + 1] x [row, row + 1] cells; its value stands at the centre.
struct DoseMap {
  int columns = 0;
  int rows = 0;
  double cellAcross_m = 0;
  double cellAlong_m = 0;
  double originAcross_m = 0;  // where the first column begins
  double originAlong_m = 0;
  std::vector<float> dose_J_m2;

  float at(int column, int row) const {
    return dose_J_m2[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) + static_cast<std::size_t>(column)];
  }
  double across_m() const { return columns * cellAcross_m; }
  double along_m() const { return rows * cellAlong_m; }
};

/// Dose across the travel, averaged along it. Position 0 is the middle of the lit extent of the swath.
struct SwathProfile {
  std::vector<double> position_m;
  std::vector<double> oneSwath_J_m2;
  std::vector<double> summed_J_m2;  // with the neighbours at the step-over
  double litExtent_m = 0;           // of lit beam centres, overshoot included
  double middle_m = 0;              // where position 0 lies on the dose map's axis across the travel
};

/// Which part of the work a dose map shows. Endless: the middle of the area, every swath beside the next, as the numbers mean it.
enum class Scene { Endless, OneSwath, StrokeStart, StrokeEnd, StillHand, Corner };

struct SceneRequest {
  Scene scene = Scene::Endless;
  double still_s = 1;  // how long a still hand stands

  bool operator==(const SceneRequest&) const = default;
};

/// The strongest stripes of one direction: the period whose share of the averaged dose is greatest, between 0.1 and 10 mm.
struct Stripe {
  double period_m = 0;
  double contrast = 0;  // amplitude of that period over the mean: (max - min)/(max + min) of it alone
  std::string cause;    // in words: "lines 0.12 mm apart beating with the hand's 5.4 mm a frame"
};

/// Lowest, middle and highest of several outcomes; of a sampled one what 5, 50 and 95 % of the samples stay below.
struct Spread {
  double low = 0;
  double middle = 0;
  double high = 0;
};

/// What becomes of the evenness when swaths are not laid in step: each next one out of phase by chance, or travelled the other way.
struct OutOfStep {
  Spread cv;
  Spread missedFraction;
  Spread min_J_m2;
  Spread rippleAlong;
  double alternatingCv = 0;  // every other swath travelled back
};

/// Dose on a face that slopes across the travel: spots and swaths stretch by 1/cos(tilt), the step-over is measured on the face. The
/// change of focus over the frame's width is left out.
struct TiltedDose {
  std::string area;
  double tilt_rad = 0;
  double peakShare = 1;  // of the irradiance that a face square to the beam gets
  double cv = 0;
  double ripple = 0;
  double rippleAlong = 0;
  double missedFraction = 0;
};

struct DoseResult {
  double mean_J_m2 = 0;
  double min_J_m2 = 0;
  double max_J_m2 = 0;
  double p05_J_m2 = 0;
  double p95_J_m2 = 0;
  double cv = 0;  // standard deviation over mean
  std::optional<double> edgeRatio;
  double ripple = 0;       // of the dose averaged along the travel
  double rippleAlong = 0;  // of the dose averaged across it
  double missedFraction = 0;
  std::optional<Stripe> stripeAcross = {};  // the pattern across the travel; nothing below a contrast of 0.1 %
  std::optional<Stripe> stripeAlong = {};
  std::optional<OutOfStep> outOfStep = {};
  std::vector<TiltedDose> tilted = {};  // areas that are not square to the beam
};

struct LayerResult {
  std::string name;
  double thickness_m = 0;
  double removed_m = 0;                         // after the plan's passes, mean over the places
  std::optional<double> thresholdFluence_J_m2;  // of one cold pulse; pulsed only
  std::optional<int> passes;                    // from the start until this layer is clear
  bool kept = false;
  std::string stallReason;    // empty unless it never clears
  double reachableShare = 0;  // of the repeat cell that is clear of it after the most passes
  bool lost = false;          // it should stay, and the plan's passes take it
  std::optional<double> clearsUpTo_rad;  // tilt beyond which the plan's passes no longer clear it; nothing where they don't square on
};

/// One class of place in the repeat cell and what the passes do there.
struct PlaceHistory {
  double share = 0;      // of the repeat cell that this place stands for
  double dose_J_m2 = 0;  // of one pass
  double across_m = 0;   // where it was sampled, in the dose map
  double along_m = 0;
  std::vector<double> depth_m;  // coat gone after pass 0, 1, 2, ...
  std::optional<int> passesToClear;
};

/// What the passes take off the coat over the repeat cell. Values stand as in a DoseMap of the same size; layers go from the top.
struct RemovedMap {
  int columns = 0;
  int rows = 0;
  double cellAcross_m = 0;
  double cellAlong_m = 0;
  std::vector<std::vector<float>> depth_m;  // coat gone at each point after pass 0, 1, 2, ... of the plan
};

/// Time in frame of a hand that stands still, until the coat is off.
struct StillHand {
  std::optional<double> first_s;  // where it goes first
  std::optional<double> most_s;   // over 95 % of the frame; nothing where the time followed does not do
  double followed_s = 60;         // at every point of the frame
};

struct RemovalResult {
  bool computed = false;
  std::optional<int> passesNeeded;
  std::optional<double> clearedFraction;  // after the plan's passes
  std::vector<LayerResult> layers;
  std::optional<double> rate_m2_s;
  std::optional<double> heatIntoPartFraction;  // energy that ends in the metal, of what the beam delivers
  double strippingShare = 0;                   // the same while coat remains
  std::vector<double> heatIntoPartByPass = {};  // the same of each pass of the plan
  std::vector<PlaceHistory> places;            // least dose first
  std::vector<double> clearedAfter = {};       // share of the repeat cell that is clear after pass 0, 1, 2, ...
  std::shared_ptr<const RemovedMap> map = {};  // found in depth
  std::optional<StillHand> stillHand = {};     // found in depth
};

/// Which temperature a limit is held against. Tint and scorch: the steady temperature that would do in ten minutes what the history does.
enum class Felt { Flash, Near, Front, Back, Tint, TintUnderBeam, Scorch };

struct LimitResult {
  std::string name;
  std::string where;
  double predicted_C = 0;
  double limit_C = 0;
  std::optional<double> margin;  // (limit - predicted) / (limit - start)
  std::string source;
  bool warnOnly = false;
  Felt felt = Felt::Front;
  double limitUpTo_C = 0;                       // limit_C is the careful end; what is spared may bear as much as this
  std::optional<double> reached_s = {};         // from the beginning of the work; nothing where the plan stays below
  std::optional<double> stillHand_s = {};       // how long the hand may stop where it is hottest; nothing where longer than was followed
  std::optional<Spread> predictedRange_C = {};  // found in depth
};

/// Temperature of the metal where the tour makes it hottest, against time. Near heat averaged over 10 ms and a spot-sized patch. With what
/// the coat lets through as it leaves, and as if all were bare already; front and back the worse of both.
struct HeatTrace {
  std::vector<double> time_s;
  std::vector<double> front_C;
  std::vector<double> back_C;
  std::vector<double> passStart_s = {};       // when each pass begins
  std::vector<double> frontBare_C = {};
  std::vector<double> backBare_C = {};
  std::vector<double> frontStripping_C = {};  // empty where there is no coat, or removal was not followed
  std::vector<double> backStripping_C = {};
  std::vector<double> part_C = {};            // bare: without the near heat
  std::vector<double> near_C = {};            // front, or the point itself an instant before each pulse while the frame is over it
  double x_m = 0;                             // where on the part, from its corner
  double y_m = 0;
};

/// One scan frame in fine time at the hottest place, bare: the point itself, an instant before each pulse, and the back face beneath.
struct FrameTrace {
  double begin_s = 0;           // of the work
  std::vector<double> time_s;   // from then
  std::vector<double> near_C;
  std::vector<double> back_C;
};

/// The hand stops in the middle of the plan's work, where and when the part is hottest, and the beam burns on; bare.
struct StillHandHeat {
  std::vector<double> time_s;  // since it stopped
  std::vector<double> front_C;
  std::vector<double> back_C;
  std::vector<double> near_C;  // the point itself, an instant before a pulse
  double stopped_s = 0;  // when, since the beginning of the work
};

struct ThermalResult {
  std::optional<double> flash_C;
  double flashRise_K = 0;  // within a pulse, on top of near heat
  std::optional<double> near_C;
  std::optional<double> front_C;
  std::optional<double> back_C;
  std::optional<double> frontStripping_C;
  std::optional<double> frontBare_C;
  std::optional<double> nearBare_C;  // what the bare metal reaches, an instant before a pulse
  std::optional<double> backStripping_C;
  std::optional<double> backBare_C;
  std::optional<double> tintEquivalent_C;  // what would colour the bare metal as much in ten minutes
  std::vector<LimitResult> limits;
  std::optional<double> warpIndex;
  std::optional<FlatnessTerms> flatness;
  std::optional<double> worstMargin;  // without the warn-only limits
  HeatTrace trace;
  FrameTrace lastFrame;
  std::optional<StillHandHeat> stillHand = {};  // found in depth
  std::shared_ptr<const PartMap> map = {};      // found in depth; the worse of stripping and bare
};

struct FinishResult {
  std::optional<double> meltFluence_J_m2;  // pulsed only
  std::optional<bool> melts;
  std::optional<double> meltDepth_m;
  std::optional<double> etch_m;
};

struct CostItem {
  std::string name;
  double amount = 0;
};

struct JobResult {
  double area_m2 = 0;
  std::optional<double> beamTime_s;
  std::optional<double> totalTime_s;
  std::optional<double> energy_J;  // from the supply
  std::optional<double> cost;
  std::vector<CostItem> costItems;
  std::optional<double> secondsPerA4;
};

struct AirResult {
  std::optional<double> removed_kg;
  std::optional<double> fume_kg_s;
  std::vector<std::string> hazards;
};

struct EyesResult {
  std::optional<double> hazardDistance_m;
  std::optional<double> diffuseDistance_m;
  std::optional<double> opticalDensity;
};

/// One row of the verdict. `question` is the row's title, `check` its stable name in the results.
struct VerdictRow {
  std::string check;
  std::string question;
  Status status = Status::NotKnown;
  std::string message;
  std::string remedy;  // what to try, in words; empty where nothing need be done
};

struct FindOutNext {
  std::string what;
  std::string how;
  std::string narrows;
};

/// One thing that is not known well, and what it does to the passes that are needed.
struct Influence {
  std::string what;      // "thickness of \"white\""
  double share = 0;      // of the passes' spread that it accounts for, 0..1
  Spread passesIfKnown;  // what remains of the passes once it is known to be as likely; infinite where it never clears
  std::string how = {};  // to find it out
};

/// What the results spread over when everything uncertain varies within its range. High may be infinite: it never clears.
struct LayerRanges {
  Spread passes;
  Spread removed_m;       // after the plan's passes
  double neverShare = 0;  // of the samples in which it never clears
};

struct Ranges {
  int samples = 0;
  Spread passesNeeded;  // high and middle are infinite where the coat never clears in so many samples
  double neverShare = 0;
  Spread clearedFraction;
  Spread heatIntoPartFraction;
  std::optional<Spread> rate_m2_s;
  std::optional<Spread> front_C;
  std::optional<Spread> back_C;
  std::optional<Spread> near_C;
  std::optional<Spread> worstMargin;
  std::vector<Spread> limits_C;  // what each of the thermal limits is held against
  std::optional<Spread> etch_m;
  std::optional<Spread> beamTime_s;   // of the passes that are needed
  std::optional<Spread> totalTime_s;
  std::optional<Spread> cost;
  std::vector<LayerRanges> layers;
  std::vector<Spread> depth_m;        // coat gone after pass 0, 1, 2, ..., mean over the repeat cell
  std::vector<Influence> influences;  // greatest first
};

/// How one number came about, in words: what a reader would put on paper to check it.
struct Working {
  std::string key;                  // the check or the result it explains, e.g. "back_face" or "job.total_time_s"
  std::string name;                 // "Back face"
  std::string formula;              // in words: "mean dose = mean power x lit share / (travel x step-over)"
  std::vector<std::string> values;  // what was put in, one a line: "mean power 255 W (yours)"
  std::string source;
};

/// The frame's path in the head's own axes, thinned for drawing: x, y in metres, whether the beam is on, and when.
struct PathPoint {
  double x_m = 0;
  double y_m = 0;
  bool lit = false;
  double time_s = 0;  // from the frame's beginning
};

struct Place;

/// Everything that is known about one plan: numbers, curves, map and remarks. A plain value, SI units.
struct Assessment {
  std::string plan;
  std::string machine;
  BeamResult beam;
  OverlapResult overlap;
  std::optional<DoseResult> dose;  // nothing where the hand stands still, or where there is too much to compute
  std::string whyNoDose;           // then: why, and what would do
  std::shared_ptr<const DoseMap> map;
  std::shared_ptr<const DoseMap> stillMap;  // one frame by a still hand, where travel is 0
  SceneRequest scene;
  std::shared_ptr<const DoseMap> sceneMap;  // across from the swath's middle, along from where the hand starts or ends; see Scene
  SwathProfile profile;
  std::shared_ptr<const std::vector<DabRow>> rows;  // of one frame, on the part
  std::vector<PathPoint> path;
  RemovalResult removal;
  ThermalResult thermal;
  FinishResult finish;
  JobResult job;
  AirResult air;
  EyesResult eyes;
  std::shared_ptr<const std::vector<Place>> places;  // where removal was followed, with the hits of one pass
  std::optional<Ranges> ranges;                      // found in depth
  std::vector<VerdictRow> verdict;
  std::vector<FindOutNext> findOutNext;
  std::vector<Working> workings;
  std::string answer;              // the one sentence of the answer line
  std::vector<std::string> notes;  // what the model left out or cannot vouch for here
  std::size_t stageNotes = static_cast<std::size_t>(-1);  // how many of them the stages made, the rest are the model's own
};

/// Version of the model, raised whenever a number may come out differently.
inline constexpr const char* modelVersion = "6";

}  // namespace bw
