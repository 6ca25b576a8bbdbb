// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

namespace bw {

/// Coefficients of one step of the Runge-Kutta-Chebyshev method of second order (Sommeijer, Shampine and Verwer 1997, J. Comput. Appl.
/// Math. 88, 315; damping 2/13), in their notation. It is stable for real negative eigenvalues down to -0.653 (s^2 - 1)/step.
struct ChebyshevStages {
  struct Stage {
    double mu = 0, nu = 0, muTilde = 0, gammaTilde = 0;
  };
  double firstMu = 0;
  std::vector<Stage> stages;  // the second and on

  // What goes along with the state needs no stages of its own: a step is the state plus the step's length times the sum of these weights
  // times the rates at the beginning and after the first and further stages, which are the state's at these shares of the step.
  std::vector<double> weights, times;
};

ChebyshevStages chebyshevStages(int count);

/// Fewest stages that hold a step against the largest eigenvalue; at least two.
int chebyshevCount(double step_s, double largest_1_s);

}  // namespace bw
