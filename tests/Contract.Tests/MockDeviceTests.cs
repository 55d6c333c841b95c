namespace Contract.Tests;

public class MockStates() : StateContract(MockUnderTest.Maker);

public class MockMessages() : MessageContract(MockUnderTest.Maker);

public class MockLink() : LinkContract(MockUnderTest.Maker);

public class MockRecords() : RecordContract(MockUnderTest.Maker);

public class MockStops() : StopContract(MockUnderTest.Maker);

public class MockHolds() : HoldContract(MockUnderTest.Maker);

public class MockJobs() : JobContract(MockUnderTest.Maker);

public class MockStores() : StoreContract(MockUnderTest.Maker);

public class MockJogging() : JogContract(MockUnderTest.Maker);

public class MockButton() : ButtonContract(MockUnderTest.Maker);

public class MockReferences() : ReferenceContract(MockUnderTest.Maker);
