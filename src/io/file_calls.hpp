// The calls that change files. A test puts its own in their place, to fail or to die at any of them.
#pragma once

#include <cstddef>
#include <string_view>
#include <sys/types.h>

namespace tuck::io {

class FileCalls {
public:
    virtual ~FileCalls() = default;
    virtual ssize_t write(int fd, const void* bytes, std::size_t count);
    virtual int sync(int fd);
    virtual int truncate(int fd, off_t size);
    /// Puts `from` in the place of `to`; with `exchange` both must exist and swap their places.
    virtual int rename(const char* from, const char* to, bool exchange);
};

/// Those of the system.
FileCalls& system_calls();

/// All bytes, whatever a single call takes. 0, or the error.
int write_all(FileCalls& calls, int fd, std::string_view bytes);

/// The name of a file stands in its folder, which has to reach the disk too.
void sync_folder_of(FileCalls& calls, const char* path);

} // namespace tuck::io
