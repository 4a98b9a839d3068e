using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.FaultModels;

namespace FuelHistory.Tests.Host;

public sealed class KnownModelTests
{
    [Fact]
    public async Task Loaded_asked_for_by_many_at_once_is_read_once_and_the_same_for_all()
    {
        const int Askers = 8;
        using CountdownEvent asking = new(Askers);
        var reads = 0;
        var model = Known(() =>
        {
            asking.Wait(TimeSpan.FromMinutes(1)); // nobody has it before all have asked
            Interlocked.Increment(ref reads);
            return Read();
        });

        var all = await Task.WhenAll(Enumerable.Range(0, Askers).Select(_ => Task.Factory.StartNew(() =>
        {
            asking.Signal();
            return model.Loaded;
        }, CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default)));

        Assert.Equal(1, reads);
        Assert.Same(Assert.Single(all.Distinct(ReferenceEqualityComparer.Instance)), model.Loaded);
    }

    [Fact]
    public void Loaded_that_failed_says_why_and_is_tried_again()
    {
        var fails = true;
        var model = Known(() => fails ? throw new IOException("the disk is gone") : Read());

        Assert.Contains("\"test-circuit\" cannot be read: the disk is gone", Assert.Throws<FaultModelUnusableException>(() => model.Loaded).Message, StringComparison.Ordinal);
        fails = false;
        Assert.Equal("test-circuit", model.Loaded.Compiled.Source.Id);
    }

    private static LoadedModel Read() =>
        new(new CompiledModel(FaultModelReader.Read(File.ReadAllText(Path.Combine(ApiHost.TestModels, "test", "model.json")))), new Dictionary<string, string>());

    private static KnownModel Known(Func<LoadedModel> read) => new("test-circuit", "Test", "1", "", () => [], read) { File = "model.json" };
}
