using Bridge.Jobs;

namespace Contract.Tests;

/// <summary>Makes a device on the gantry of a machine, as after power-on; the seed decides where the carriage stands.</summary>
public delegate IDeviceUnderTest DeviceMaker(Machine machine, int seed);
