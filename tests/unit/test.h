/*
 * What every unit test begins with.  cmocka.h wants the headers before it, in
 * any order, and does not include them itself.
 */
#ifndef TEST_H
#define TEST_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define COUNT(list) (sizeof(list) / sizeof *(list))

#endif
