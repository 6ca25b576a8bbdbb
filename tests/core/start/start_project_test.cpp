// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/start/start_project.h"

#include "core/files/library_file.h"
#include "core/files/project_file.h"
#include "core/start/first_guess.h"
#include "core/start/typical_machines.h"
#include "tests/support/catch.h"

using namespace bw;

TEST_CASE("Nothing known is still a project that can be assessed, and says that it is not known", "[start]") {
  const Project project = startProject({}, shippedLibrary());
  CHECK(validate(project, shippedLibrary()).empty());
  CHECK(project.part.substrate == "unknown-metal");
  CHECK(project.part.knownFrom.at("thickness_mm") == KnownFrom::Unknown);
  CHECK(project.part.behind == std::vector{Behind::Unknown});
  REQUIRE(project.coat.size() == 1);
  CHECK(project.coat[0].knownFrom == KnownFrom::Unknown);
  CHECK(project.coat[0].thickness_m.high > 2 * project.coat[0].thickness_m.likely);
}

TEST_CASE("Colours seen at a chip become layers, top first", "[start]") {
  StartAnswers answers;
  answers.coat = CoatKind::Several;
  answers.colours = {chipColours().at(8), chipColours().at(1)};
  answers.coatTotal_m = Range{80e-6, 100e-6, 120e-6};
  const Project project = startProject(answers, shippedLibrary());
  REQUIRE(project.coat.size() == 2);
  CHECK(project.coat[0].name == "black");
  CHECK(project.coat[1].coating == "unknown-pale");
  CHECK(project.coat[0].thickness_m.likely + project.coat[1].thickness_m.likely == Catch::Approx(100e-6));
  CHECK(validate(project, shippedLibrary()).empty());
}

TEST_CASE("Zinc that must stay is the lowest layer, and kept", "[start]") {
  StartAnswers answers;
  answers.keepsZinc = true;
  const Project project = startProject(answers, shippedLibrary());
  REQUIRE(project.coat.size() == 2);
  CHECK(project.coat[1].keep);
  CHECK_FALSE(project.coat[0].keep);
  CHECK(validate(project, shippedLibrary()).empty());
}

TEST_CASE("A total that was measured is the thickness of a single coat", "[start]") {
  StartAnswers answers;
  answers.coat = CoatKind::Powder;
  answers.coatTotal_m = Range{70e-6, 80e-6, 90e-6};
  const Project project = startProject(answers, shippedLibrary());
  REQUIRE(project.coat.size() == 1);
  CHECK(project.coat[0].coating == "unknown-powder");
  CHECK(project.coat[0].thickness_m == *answers.coatTotal_m);
}

TEST_CASE("The first guess stays within what the machine can do, for every typical machine", "[start]") {
  std::vector<Machine> machines = typicalMachines();
  machines.push_back(machineLike(MachineKind::Pulsed, 60, 50e-6));
  machines.push_back(machineLike(MachineKind::Continuous, 3000, 800e-6));
  for (const Machine& machine : machines) {
    INFO(machine.name);
    const Settings settings = firstGuess(machine);
    CHECK(settings.width_m <= machine.scan.maxWidth_m);
    CHECK(settings.height_m <= machine.scan.maxHeight_m);
    CHECK(settings.scanSpeed_m_s > 0);
    CHECK(settings.scanSpeed_m_s <= machine.scan.maxSpeed_m_s);
    CHECK(settings.travelSpeed_m_s >= 0.002);
    CHECK(settings.stepOver_m < settings.width_m);
    if (machine.kind == MachineKind::Pulsed) {
      CHECK(settings.repetitionRate_Hz >= machine.repetitionRate_Hz[0]);
      CHECK(settings.repetitionRate_Hz <= machine.repetitionRate_Hz[1]);
      const double energy_J = settings.powerFraction * machine.ratedPower_W / settings.repetitionRate_Hz;
      CHECK(energy_J <= machine.maxPulseEnergy_J[0]);
    }
    StartAnswers answers;
    answers.machine = machine;
    CHECK(validate(startProject(answers, shippedLibrary()), shippedLibrary()).empty());
  }
}

TEST_CASE("What a magnet told is kept where the metal is not known", "[start]") {
  StartAnswers answers;
  answers.magnet = Magnet::Sticks;
  const Project steel = startProject(answers, shippedLibrary());
  CHECK(steel.part.substrate == "unknown-steel");
  CHECK(findSubstrate(shippedLibrary(), "unknown-steel")->family == MetalFamily::Iron);
  answers.magnet = Magnet::DoesNotStick;
  CHECK(startProject(answers, shippedLibrary()).part.substrate == "unknown-nonmagnetic");
  CHECK(findSubstrate(shippedLibrary(), "unknown-nonmagnetic")->family != MetalFamily::Iron);
  answers.substrate = "brass";
  CHECK(startProject(answers, shippedLibrary()).part.substrate == "brass");
}
