// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/recovery.h"

#include "core/files/library_file.h"
#include "core/files/project_file.h"
#include "ui/style/to_qt.h"

#include <QDir>
#include <QJsonArray>
#include <QJsonDocument>
#include <QStandardPaths>
#include <QUuid>

#include <utility>

namespace bw {
namespace {

constexpr int delay_ms = 1000;
const char* const cameFrom = "recovered_from";  // key of the copy that names the file it belongs to

std::string asJson(const QString& text) {
  const QByteArray list = QJsonDocument(QJsonArray{text}).toJson(QJsonDocument::Compact);
  return list.mid(1, list.size() - 2).toStdString();
}

QString fromJson(const std::string& json) {
  return QJsonDocument::fromJson(QByteArray::fromStdString("[" + json + "]")).array().at(0).toString();
}

QString lockPath(const QString& copy) { return copy + QStringLiteral(".lock"); }

std::unique_ptr<QLockFile> lock(const QString& copy) {
  auto file = std::make_unique<QLockFile>(lockPath(copy));
  file->setStaleLockTime(0);  // a lock is stale when its process is gone, however old it is
  return file;
}

std::optional<Recovered> read(const QString& copy) {
  try {
    ReadResult result = readProject(readWholeFile(toPath(copy)), shippedLibrary());
    if (result.project.plans.empty()) return std::nullopt;  // the window always has one: this is no project, or half of one
    Recovered recovered{std::move(result.project), {}};
    if (const auto from = recovered.project.extras.find(cameFrom); from != recovered.project.extras.end()) {
      recovered.filePath = fromJson(from->second);
      recovered.project.extras.erase(from);
    }
    return recovered;
  } catch (const FileError&) {
    return std::nullopt;
  }
}

}  // namespace

Recovery::Recovery(ProjectDocument& document, const QString& folder, QObject* parent)
    : QObject(parent), m_document(document),
      m_folder(folder.isEmpty() ? QStandardPaths::writableLocation(QStandardPaths::AppLocalDataLocation) + QStringLiteral("/recovery") : folder),
      m_id(QUuid::createUuid().toString(QUuid::WithoutBraces)) {
  QDir().mkpath(m_folder);
  m_lock = lock(copyPath());
  m_lock->tryLock();
  m_writer.setMaxThreadCount(1);
  m_timer.setSingleShot(true);
  m_timer.setInterval(delay_ms);
  connect(&m_timer, &QTimer::timeout, this, &Recovery::write);
  connect(&m_document, &ProjectDocument::changed, this, &Recovery::documentChanged);
}

QString Recovery::copyPath() const { return m_folder + QLatin1Char('/') + m_id + QStringLiteral(".bwright"); }

void Recovery::documentChanged(Changes changes) {
  if (changes == Changes(Change::Shown)) return;
  if (!m_document.isModified()) {
    discard();
  } else if (!m_timer.isActive()) {
    m_timer.start();
  }
}

void Recovery::write() {
  Project copy = m_document.project();
  copy.extras[cameFrom] = asJson(m_document.filePath());
  const auto write = [copy = std::move(copy), path = toPath(copyPath()), leftBehind = std::exchange(m_leftBehind, {})] {
    try {
      writeFileAtomically(writeProject(copy, shippedLibrary()), path);
      if (!leftBehind.isEmpty()) QFile::remove(leftBehind);
    } catch (const FileError&) {
      // A full disk must not stop the work; saving will say so.
    }
  };
  m_writer.start(write);
}

void Recovery::flush() {
  m_timer.stop();
  if (m_document.isModified()) write();
  m_writer.waitForDone();
}

void Recovery::discard() {
  m_timer.stop();
  m_writer.start([path = copyPath()] { QFile::remove(path); });
}

std::optional<Recovered> Recovery::findLeftBehind() {
  for (const QFileInfo& file : QDir(m_folder).entryInfoList({QStringLiteral("*.bwright")}, QDir::Files, QDir::Time)) {
    const QString copy = file.absoluteFilePath();
    if (file.completeBaseName() == m_id) continue;
    const auto owner = lock(copy);
    if (!owner->tryLock()) continue;  // another window of the program is at work on it
    if (auto recovered = read(copy)) {
      m_leftBehind = copy;
      return recovered;
    }
    QFile::rename(copy, copy + QStringLiteral(".unreadable"));
  }
  return std::nullopt;
}

void Recovery::dropLeftBehind() {
  QFile::remove(m_leftBehind);
  m_leftBehind.clear();
}

}  // namespace bw
