#ifndef FAULT_ALLOCATOR_H
#define FAULT_ALLOCATOR_H

/* The C library's allocation functions, replaced in this program: counted,
 * and one of them refused on demand. All threads count together. */

/* Starts counting at 0; the n-th allocation from here fails, none if n < 1. */
void allocator_start(long n);

/* Ends that; how many allocations there were. */
long allocator_stop(void);

/* How many blocks are allocated now. */
long allocator_live(void);

#endif
