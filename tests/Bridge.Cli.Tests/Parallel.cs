// These tests mostly wait for processes.
[assembly: CollectionBehavior(MaxParallelThreads = 6)]
