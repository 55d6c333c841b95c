namespace Contract.Tests;

[NeedsCompiler]
public class NativeStates() : StateContract(NativeUnderTest.Maker);

[NeedsCompiler]
public class NativeMessages() : MessageContract(NativeUnderTest.Maker);

[NeedsCompiler]
public class NativeLink() : LinkContract(NativeUnderTest.Maker);

[NeedsCompiler]
public class NativeRecords() : RecordContract(NativeUnderTest.Maker);

[NeedsCompiler]
public class NativeStops() : StopContract(NativeUnderTest.Maker);

[NeedsCompiler]
public class NativeHolds() : HoldContract(NativeUnderTest.Maker);

[NeedsCompiler]
public class NativeJobs() : JobContract(NativeUnderTest.Maker);

[NeedsCompiler]
public class NativeStores() : StoreContract(NativeUnderTest.Maker);

[NeedsCompiler]
public class NativeJogging() : JogContract(NativeUnderTest.Maker);

[NeedsCompiler]
public class NativeButton() : ButtonContract(NativeUnderTest.Maker);

[NeedsCompiler]
public class NativeReferences() : ReferenceContract(NativeUnderTest.Maker);
