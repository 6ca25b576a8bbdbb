// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/removal/coat_foot.h"
#include "core/removal/coated_metal.h"
#include "core/removal/metal_warmth.h"

#include <array>
#include <utility>
#include <vector>

namespace bw {

/// Where the energy that fell on one point went, J/m2. absorbed = carriedOff + intoPart + stored at all times.
struct EnergyAccount {
  double delivered = 0;
  double absorbed = 0;
  double carriedOff = 0;
  double intoPart = 0;
  double deliveredBare = 0;  // of delivered, what fell on bare metal
  double intoPartBare = 0;   // of intoPart, what bare metal took up

  EnergyAccount& operator+=(const EnergyAccount& more) {
    delivered += more.delivered;
    absorbed += more.absorbed;
    carriedOff += more.carriedOff;
    intoPart += more.intoPart;
    deliveredBare += more.deliveredBare;
    intoPartBare += more.intoPartBare;
    return *this;
  }
  EnergyAccount operator*(double f) const {
    return {f * delivered, f * absorbed, f * carriedOff, f * intoPart, f * deliveredBare, f * intoPartBare};
  }
  EnergyAccount operator-(const EnergyAccount& less) const { return EnergyAccount(*this) += less * -1; }
};

/// Removal at one still point under short pulses: for every layer two numbers, its face's enthalpy density h and the length l over which
/// it is stored (energy h l). Between pulses the stores spread inwards and leak into the part; a pulse adds to them, light divided as in
/// CoatLight; where the top layer's h passes what it leaves at, H, it recedes by L ln(h/H), L the 1/e length of the stored profile:
/// l = L (1 - exp(-r/L)) in the coat left, r. The spreading starts from the length over which light fills the layer.
/// A layer has two such stores: once the fresh one has spread to four times the light's depth the next pulse folds it into the old
/// one (energies and face enthalpies add), so that a new pulse does not inherit the breadth of old heat. With one, real rasters near the
/// threshold came out up to three times too deep.
/// What lies above the sensible enthalpy Hs conducts nothing: the surface holds until the flux alpha Hs/l has carried off the surplus
/// l (h - Hs - Hs ln(h/Hs)). Without that hold rasters came out up to 18 % too shallow.
///
/// Heat that spreads during a pulse: it ends phi = heatedDepths(s) times as deep as the light went, at a density as much lower, so that the
/// threshold is met; a layer recedes over its optical depth even so, or over the depth heat goes in the pulse, sqrt(pi alpha tau)/2, where
/// that is greater (metals, scale).
///
/// What is left of a layer below its film limit counts as gone; the last layer's film then really goes, that of another one as a remnant.
///
/// A buried layer does not recede. Where its face reaches its removal temperature before the film over it has left, or the metal's face,
/// warm from earlier pulses, that of the layer on it within a pulse, all that lies over it comes off as flakes with the top layer's lift
/// chance; a point follows the likely course, so it goes once the chance has come to a half. A pulse counts by how much of the heat
/// that is too much it has brought itself. What a buried layer holds beyond its removal enthalpy flows into the film over it. A layer that
/// is laid bare keeps the heat it has. A softening layer loses no more in one pass than all but its residue, unless the pulse blows it off;
/// a scorching one takes up more once its face has reached its removal temperature. All that is on the metal goes once the coat's foot lets
/// go.
///
/// Valid for pulses, 10 kHz to 1 MHz, 0.2 to 5 times threshold: held to a resolved column in the tests. Not for continuous beams. Left
/// out: the metal's warmth but at its face, heat that spreads sideways.
class Ledger {
 public:
  /// `part` must outlive it.
  explicit Ledger(const CoatedMetal& part);

  /// What softening layers hold now bounds what they leave behind.
  void beginPass();

  /// A gap without light.
  void rest(double gap_s);

  /// A pulse, split where it lasts longer than matter takes to leave: into pieces as long as that, and a rest.
  void pulse(double fluence_J_m2, double duration_s);

  bool isBare() const { return m_top == m_coat.size(); }
  double depth_m() const;                                           // coat gone
  double left_m(std::size_t layer) const;                           // 0 once the layer counts as gone
  double progress_m() const;                                        // coat gone, and as much of the top as is likely to flake off soon
  double etch_m() const { return m_etch; }
  double stored_J_m2() const;
  const EnergyAccount& energy() const { return m_energy; }
  double work() const {
    return m_work;
  }  // so far, in pulses on two warm layers; a long one counts as its parts, one on bare metal as a seventh

 private:
  static constexpr double oldFrom = 4;  // fresh lengths

  struct Store {
    double enthalpy_J_m3 = 0;  // h, at its face
    double length_m = 0;       // l
    double energy_J_m2() const { return enthalpy_J_m3 * length_m; }
  };

  /// Heat in one layer: what is fresh, and what has spread far.
  struct Heat {
    Store fresh;
    Store old;
    double justNow_J_m3 = 0;  // of the face's enthalpy, by the pulse at hand
    bool isWarm() const { return fresh.enthalpy_J_m3 + old.enthalpy_J_m3 > 0; }
    double energy_J_m2() const { return fresh.energy_J_m2() + old.energy_J_m2(); }
    Store whole() const;  // both as one
  };

  /// What heat does in a layer while a pulse, or a part of one, lasts.
  struct InPulse {
    double deeper = 1;  // heat over light, in depth
    double decay = 1;   // length the layer recedes over, in stored lengths
  };

  Heat& top() { return m_heat[m_top]; }
  void setPulse(double duration_s, bool rest);
  const CoatLight::Film& topFilm();
  double coatLeft_m(std::size_t from) const;
  double hold(double gap_s);
  void warm(std::size_t layer, const CoatLight::Film& film, double light_J_m2);
  void spread(std::size_t layer, double fresh_m, double gap_s);
  void spread(Store& store, std::size_t layer, double fresh_m, double gap_s);
  void absorb(double fluence_J_m2, bool blowsOff);
  double warmBuried(double light_J_m2);
  double shareBelow(std::size_t layer) const;
  double riseOver_K(std::size_t layer) const;
  bool facesHot(std::size_t layer) const;
  void heatFromBeneath(double gap_s);
  void coolMetal(double gap_s);
  void liftFlakes(double flash_K);
  void letGo();
  void dropTop();
  void recede(bool blowsOff);
  void wear(bool blowsOff);
  void uncover();
  void hitMetal(double fluence_J_m2, double duration_s);

  const std::vector<CoatLayer>& m_coat;
  const CoatLight& m_light;
  const BareMetal& m_metal;
  std::vector<double> m_left;
  std::vector<double> m_residue;  // least that this pass leaves of each layer
  std::vector<Heat> m_heat;
  std::array<std::pair<double, std::vector<InPulse>>, 2> m_inPulses{};  // by how long a piece of a pulse is: the whole ones and the rest
  std::size_t m_piece = 0;                                              // of them, the one under way
  std::size_t m_top = 0;
  std::size_t m_warmed = 0;  // layers from here on are cold
  CoatLight::Film m_film;    // of the top layer, as thick as m_filmLeft
  double m_filmLeft = -1;
  double m_drained = 0;     // of the top's surplus above its sensible enthalpy, J/m2
  double m_toMetal = 0;     // by the pulse at hand, through the coat, J/m2
  double m_holding = 1;     // chance that the top layer has not yet come off as flakes
  bool m_scorched = false;  // the top layer
  MetalWarmth m_warmth;
  CoatFoot m_foot;
  double m_etch = 0;
  double m_work = 0;
  double m_boils_s = -1;  // pulse that m_boils_J_m2 is for
  double m_boils_J_m2 = 0;
  EnergyAccount m_energy;
};

}  // namespace bw
