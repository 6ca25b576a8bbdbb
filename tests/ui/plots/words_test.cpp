// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"

#include "tests/support/fake_assessment.h"
#include "tests/ui/plots/shown_panel.h"
#include "ui/plots/dose_words.h"
#include "ui/plots/swath_plot.h"

using namespace bw;
using namespace bw::test;

TEST_CASE("The stronger stripes are told with their period and cause, weak ones not") {
  DoseResult dose;
  CHECK(stripeWords(dose).isEmpty());
  dose.stripeAcross = Stripe{0.3e-3, 0.02, "swaths' edges"};
  dose.stripeAlong = Stripe{1.9e-3, 0.06, "lines 0.09 mm apart beating with the hand's 5.4 mm a frame"};
  CHECK(plain(stripeWords(dose)) ==
        "Stripes every 1.9 mm along the travel, 6.0 % strong: lines 0.09 mm apart beating with the hand's 5.4 mm a frame");
  dose.stripeAlong->contrast = 0.004;
  CHECK(plain(stripeWords(dose)) == "Stripes every 0.30 mm across the swath, 2.0 % strong: swaths' edges");
  dose.stripeAcross->contrast = 0.009;
  CHECK(stripeWords(dose).isEmpty());
}

TEST_CASE("Swaths out of step are told only where they miss more than in step") {
  DoseResult dose;
  CHECK(outOfStepWords(dose).isEmpty());
  dose.missedFraction = 0.03;
  dose.outOfStep = OutOfStep{};
  dose.outOfStep->missedFraction = {0.02, 0.03, 0.034};
  CHECK(outOfStepWords(dose).isEmpty());
  dose.outOfStep->missedFraction = {0.02, 0.04, 0.06};
  CHECK(plain(outOfStepWords(dose)) == "swaths out of step: 2.0 to 6.0 % missed");
}

TEST_CASE("Strikes are counted in words") {
  CHECK(strikesWords({38.2, 6}, true) == "38 pulses fall here in a pass, from 6 lines");
  CHECK(strikesWords({1, 1}, true) == "one pulse falls here in a pass, from one line");
  CHECK(strikesWords({0, 0}, true) == "no pulse falls here");
  CHECK(strikesWords({0, 4}, false) == "4 passages");
  CHECK(strikesWords({0, 0}, false) == "the beam does not come here");
}

TEST_CASE("The swath plot's line tells stripes and what swaths out of step miss") {
  Assessment made = *fake::firstGuess();
  made.dose->stripeAlong = Stripe{1.9e-3, 0.06, "lines beating"};
  made.dose->outOfStep = OutOfStep{};
  made.dose->outOfStep->missedFraction = {0.02, 0.04, 0.9};
  SwathPlot plot;
  plot.setAssessment(std::make_shared<const Assessment>(made));
  CHECK(plot.statement().contains("Stripes every 1.9"));
  CHECK(plot.statement().contains("Swaths out of step"));
  plot.setCompact(true);
  CHECK_FALSE(plot.statement().contains("Stripes"));
}

TEST_CASE("No ripple is called even") {
  CHECK(rippleWords(0) == "Even");
  CHECK(rippleWords(9e-7) == "Even");
  CHECK(missedWords(0) == "nothing missed");
  CHECK(plain(missedWords(0.03)) == "3.0 % missed");
  CHECK(rippleWords(0.08).contains("8"));
}
