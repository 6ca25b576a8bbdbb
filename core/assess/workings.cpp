// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/workings.h"

#include "core/text/text.h"

namespace bw {

namespace {

using namespace text;

std::string known(const std::optional<double>& value, std::string (*say)(double)) { return value ? say(*value) : "not known"; }

FlatnessTerms terms(const Assessment& assessment) { return assessment.thermal.flatness.value_or(FlatnessTerms{}); }

std::string twoDigits(double value) { return number(value); }

Working removal(const Work& work, const Assessment& assessment) {
  Working w{"removal", "Passes needed", "", {}, ""};
  if (work.pulsed()) {
    w.formula =
        "At points across the swath, pulse after pulse: what a pulse leaves in the coat is stored near the surface and leaks inwards; "
        "where the store passes the layer's removal enthalpy H, the surface recedes by (stored length) x ln(enthalpy / H).";
    w.values = {"peak fluence " + known(assessment.beam.peakFluence_J_m2, fluence) + " per pulse"};
    w.source = "two-number ledger; depth per pulse d ln(F/Fth), most efficient at e2 x threshold";
  } else {
    w.formula =
        "At points across the swath: a column of cells through coat and metal takes up the light and conducts; a cell leaves when it holds "
        "its removal enthalpy.";
    w.source = "one-dimensional enthalpy method, implicit";
  }
  for (const LayerMaterial& layer : work.coat) {
    w.values.push_back(layer.name + ": " + length(layer.thickness_m.likely) + ", absorptance " + number(layer.absorptance.likely) +
                       ", optical depth " + length(layer.opticalDepth_m.likely) + ", H " + number(layer.removalEnthalpy_J_m3.likely / 1e9) +
                       " J/mm³");
  }
  return w;
}

Working evenness(const Work& work, const Assessment& assessment) {
  const Settings& s = work.settings();
  Working w{"evenness",
            "Evenness of the dose",
            "Sum of every pulse's fluence over the cell after which the pattern repeats. Mean dose = mean power x lit share / (travel x "
            "step-over). Ripple = (most - least) / (most + least) of the dose averaged along the travel.",
            {},
            "identity of energy; file format for the statistics"};
  w.values = {"mean power " + number(assessment.beam.meanPower_W, 3) + " W", "lit share " + percent(assessment.overlap.litFraction),
              "travel " + number(s.travelSpeed_m_s * 1e3, 3) + " mm/s", "step-over " + length(s.stepOver_m),
              "spot " + length(assessment.beam.spotDiameter_m)};
  if (assessment.dose) w.values.push_back("mean dose " + fluence(assessment.dose->mean_J_m2));
  return w;
}

Working heat(const Work& work, const Assessment& assessment) {
  const ThermalResult& t = assessment.thermal;
  Working w{"temperature",
            "Temperatures of the metal",
            "Every joule counts once, by its age. Young: near heat, each piece of the tour's past as a Gaussian that spreads, with images in "
            "the far face and the edges. Older: the part on a grid, with k(T), c(T), the air and glow. The tour runs there and back over every "
            "area, pass after pass. The worse of stripping and bare metal counts.",
            {},
            "Carslaw and Jaeger 2nd ed. 1.6, 2.2, 10.3; Eagar and Tsai 1983; EN 1993-1-2, EN 1999-1-2"};
  w.values = {"absorptance of the bare metal " + number(work.metal.absorptance.high) + " (high end)",
              "thickness " + length(work.project.part.thickness_m.likely),
              "conductivity " + number(work.metal.conductivity_W_mK.likely) + " W/mK",
              "front " + known(t.front_C, temperature) + ", back " + known(t.back_C, temperature),
              "while stripping: front " + known(t.frontStripping_C, temperature) + ", back " + known(t.backStripping_C, temperature)};
  for (const LimitResult& limit : t.limits) {
    w.values.push_back(limit.name + ": " + temperature(limit.predicted_C) + " of " + temperature(limit.limit_C) +
                       (limit.warnOnly ? " (warning only)" : "") + ", " + limit.source);
  }
  return w;
}

Working flatness(const Work& work, const Assessment& assessment) {
  return {"flatness",
          "Screening for distortion",
          "Largest of: local rise x E a / yield; local rise over the rise that makes a warm disc of that width oil-can, 8.4 t2 / (12 (1 - "
          "nu2) a (b/2)2); bow of a skin that yields, over 1 mm on 0.3 m.",
          {"thickness " + length(work.project.part.thickness_m.likely), "local rise " + known(terms(assessment).localRise_K, whole) + " K",
           "width " + known(terms(assessment).width_m, length),
           "terms: yield " + known(terms(assessment).yield, twoDigits) + ", popping while hot " +
               known(terms(assessment).oilCan, twoDigits) + ", bow left " + known(terms(assessment).bow, twoDigits),
           "yield strength " + number(work.metal.yield_Pa.likely / 1e6, 3) + " MPa",
           "index " + known(assessment.thermal.warpIndex, [](double v) { return number(v); })},
          "thermal buckling of a heated disc (Boley and Weiner ch. 13), order of magnitude; not checked against real distortions"};
}

Working finish(const Work& work, const Assessment& assessment) {
  const FinishResult& f = assessment.finish;
  return {"finish",
          "What the bare metal looks like",
          "Melt fluence = (Tm - T0) sqrt(pi k rho c tau) / (2 A). Melt depth from the half-space under constant flux. Etch per pulse = A "
          "(F - Fv) / (rho Hv).",
          {"pulse " + number(work.settings().pulseDuration_s * 1e9, 3) + " ns", "melt fluence " + known(f.meltFluence_J_m2, fluence),
           "peak fluence " + known(assessment.beam.peakFluence_J_m2, fluence), "before a pulse " + temperature(work.nearBare_C),
           "melt depth " + known(f.meltDepth_m, length), "etch " + known(f.etch_m, length)},
          "Carslaw and Jaeger 2nd ed. 2.9; energies to boil: NASA TM-4513"};
}

Working time(const Work& work, const Assessment& assessment) {
  const Settings& s = work.settings();
  return {"time",
          "Time and price",
          "Beam time = passes x area / (travel x step-over x share for access and tilt). Working time = beam time / 0.7 + pauses + set-up. "
          "Price = working time x (price of a machine hour + price of an hour of work).",
          {"area " + number(assessment.job.area_m2 * 1e4, 3) + " cm²", std::to_string(s.passes) + " passes",
           "travel " + number(s.travelSpeed_m_s * 1e3, 3) + " mm/s", "step-over " + length(s.stepOver_m),
           "beam time " + known(assessment.job.beamTime_s, duration), "in all " + known(assessment.job.totalTime_s, duration)},
          "beam on for 0.7 of the time: common practice, no source"};
}

Working safety(const Work& work, const Assessment& assessment) {
  return {"safety",
          "Hazard distance",
          "Distance at which the focused beam, spreading by its full angle, falls to the exposure limit of the eye within 10 s: sqrt(8 P / "
          "(pi MPE)) / angle.",
          {"rated power " + number(work.machine.ratedPower_W, 4) + " W", "distance " + known(assessment.eyes.hazardDistance_m, length),
           "off a matt wall " + known(assessment.eyes.diffuseDistance_m, length),
           "optical density " + known(assessment.eyes.opticalDensity, whole)},
          "IEC 60825-1 and ICNIRP 2013, directive 2006/25/EC; the stricter"};
}

}  // namespace

std::vector<Working> workingsOf(const Work& work, const Assessment& assessment) {
  return {removal(work, assessment), evenness(work, assessment), heat(work, assessment),  flatness(work, assessment),
          finish(work, assessment),  time(work, assessment),     safety(work, assessment)};
}

}  // namespace bw
