// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/cells_as_ode.h"

#include "core/materials/curves.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

namespace bw::test {

HeatedCells::HeatedCells() {
  CoatLayer top;
  top.thickness_m = 25e-6;
  top.absorptance = 0.6;
  top.opticalDepth_m = 8e-6;
  top.removalEnthalpy_J_m3 = 1.5e9;
  top.ejectionTime_s = 150e-9;
  top.heatCapacity_J_m3K = 2.0e6;
  top.diffusivity_m2_s = 0.27 / 2.0e6;
  top.removalRise_K = 330;
  CoatLayer primer = top;
  primer.thickness_m = 20e-6;
  primer.opticalDepth_m = 20e-6;
  primer.heatCapacity_J_m3K = 1.7e6;
  primer.diffusivity_m2_s = 0.4 / 1.7e6;
  layers = {top, primer};
  metal.family = MetalFamily::Iron;
  metal.conductivityCurve = metal.specificHeatCurve = ThermalCurve::CarbonSteel;
  metal.absorptance.likely = 0.6;
  metal.conductivity_W_mK.likely = 53.334;
  metal.density_kg_m3.likely = 7850;
  metal.specificHeat_J_kgK.likely = 439.8;
  metal.melting_C.range.likely = 1500;
}

std::vector<LightPiece> HeatedCells::pulses(int count, double period_s, double share) const {
  constexpr double duration_s = 50e-9;
  const double fluence = share * layers[0].sensibleEnthalpy_J_m3() * layers[0].opticalDepth_m / layers[0].absorptance;
  std::vector<LightPiece> pieces;
  for (int i = 0; i < count; ++i) pieces.push_back({i * period_s, duration_s, fluence / duration_s});
  return pieces;
}

struct CellsAsOde::System {
  Metal metal;
  double start_C;
  std::size_t coatCells = 0;
  std::vector<double> size_m, conductivity_W_mK, capacity_J_m2K, share;
  double irradiance_W_m2 = 0;
  const gsl_odeiv2_step_type* method = nullptr;

  std::size_t count() const { return size_m.size(); }
  double conductivity(std::size_t i, double rise_K) const {
    return i < coatCells ? conductivity_W_mK[i]
                         : bw::conductivity_W_mK(metal.conductivityCurve, metal.conductivity_W_mK.likely, start_C + rise_K);
  }
  double capacity(std::size_t i, double rise_K) const {
    if (i < coatCells) return capacity_J_m2K[i];
    return size_m[i] * metal.density_kg_m3.likely *
           specificHeat_J_kgK(metal.specificHeatCurve, metal.specificHeat_J_kgK.likely, start_C + rise_K);
  }
  double link(std::size_t i, const double* rise) const {
    return 2 / (size_m[i] / conductivity(i, rise[i]) + size_m[i + 1] / conductivity(i + 1, rise[i + 1]));
  }

  static int rates(double, const double* rise, double* out, void* self) {
    const System& s = *static_cast<const System*>(self);
    double fromAbove = 0;
    for (std::size_t i = 0; i < s.count(); ++i) {
      const double toBelow = i + 1 < s.count() ? s.link(i, rise) * (rise[i] - rise[i + 1]) : 0;
      out[i] = (s.irradiance_W_m2 * s.share[i] + fromAbove - toBelow) / s.capacity(i, rise[i]);
      fromAbove = toBelow;
    }
    return GSL_SUCCESS;
  }

  /// Without the slopes of the curves: they change the road to the solution, not the solution.
  static int jacobian(double, const double* rise, double* matrix, double* inTime, void* self) {
    const System& s = *static_cast<const System*>(self);
    const std::size_t n = s.count();
    std::fill(matrix, matrix + n * n, 0.0);
    std::fill(inTime, inTime + n, 0.0);
    for (std::size_t i = 0; i + 1 < n; ++i) {
      const double link = s.link(i, rise), upper = link / s.capacity(i, rise[i]), lower = link / s.capacity(i + 1, rise[i + 1]);
      matrix[i * n + i] -= upper;
      matrix[i * n + i + 1] += upper;
      matrix[(i + 1) * n + i + 1] -= lower;
      matrix[(i + 1) * n + i] += lower;
    }
    return GSL_SUCCESS;
  }
};

CellsAsOde::CellsAsOde(const HeatedCells& heated, const std::vector<ColumnCell>& cells, const char* method)
    : m_system(std::make_shared<System>()), m_rise(cells.size(), 0) {
  System& s = *m_system;
  s.metal = heated.metal;
  s.start_C = heated.start_C;
  s.method = std::string(method) == "msbdf" ? gsl_odeiv2_step_msbdf : gsl_odeiv2_step_rkf45;
  double light = heated.layers[0].absorptance;
  for (const ColumnCell& cell : cells) {
    const bool coat = cell.layer < heated.layers.size();
    s.coatCells += coat ? 1 : 0;
    s.size_m.push_back(cell.size_m);
    s.conductivity_W_mK.push_back(coat ? heated.layers[cell.layer].heatCapacity_J_m3K * heated.layers[cell.layer].diffusivity_m2_s : 0);
    s.capacity_J_m2K.push_back(coat ? heated.layers[cell.layer].heatCapacity_J_m3K * cell.size_m : 0);
    const double passes = coat ? std::exp(-cell.size_m / heated.layers[cell.layer].opticalDepth_m) : 0;
    s.share.push_back(light * (1 - passes));
    light *= passes;
  }
}

void CellsAsOde::advance(double irradiance_W_m2, double duration_s, double error) {
  if (duration_s <= 0) return;
  m_system->irradiance_W_m2 = irradiance_W_m2;
  gsl_odeiv2_system system = {System::rates, System::jacobian, m_rise.size(), m_system.get()};
  const std::unique_ptr<gsl_odeiv2_driver, decltype(&gsl_odeiv2_driver_free)> driver(
      gsl_odeiv2_driver_alloc_y_new(&system, m_system->method, std::min(1e-9, 0.1 * duration_s), 100 * error, error),
      gsl_odeiv2_driver_free);
  double now = 0;
  if (gsl_odeiv2_driver_apply(driver.get(), &now, duration_s, m_rise.data()) != GSL_SUCCESS)
    throw std::runtime_error("the integrator gave up");
}

}  // namespace bw::test
