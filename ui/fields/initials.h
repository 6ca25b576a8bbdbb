// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

namespace bw {

/// Initials as last given on this computer.
QString lastInitials();
void rememberInitials(const QString& initials);

}  // namespace bw
