// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/learn/learnt.h"

#include <string>
#include <vector>

namespace bw {

/// What is wrong with a number that was entered, as a sentence; empty where nothing is.
std::string notAbove0(std::size_t index, double value, const char* noun);
std::string notFinite(std::size_t index, double value, const char* noun);
std::string badReading(std::size_t index, const Measured& reading, const char* noun);

/// How many different numbers there are, such as differ by more than rounding.
std::size_t differing(std::vector<double> values);

/// The first that says something.
std::string firstOf(const std::vector<std::string>& sentences);

/// "two readings", "12 readings".
std::string readings(std::size_t count);

}  // namespace bw
