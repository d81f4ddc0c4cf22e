// Where the tests find the tree they belong to; known to one file, so that the others compile alike in every
// folder.
#pragma once

namespace tuck::places {

const char* foods();
const char* samples();
const char* tests();

} // namespace tuck::places
