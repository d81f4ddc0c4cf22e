// One at a time: who reads a file, changes it and writes it anew.
#pragma once

#include <string>

namespace tuck::io {

/// Holds the folder of `file` (flock; waits up to 10 s), so that no other of these loses what it adds. It
/// leaves nothing behind, whatever ends it. Throws InputError.
class FolderLock {
public:
    explicit FolderLock(const std::string& file);
    ~FolderLock();
    FolderLock(const FolderLock&) = delete;
    FolderLock& operator=(const FolderLock&) = delete;

private:
    int fd_ = -1;
};

} // namespace tuck::io
