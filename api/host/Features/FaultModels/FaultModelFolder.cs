using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Sqlite;

namespace FuelHistory.Host.Features.FaultModels;

/// <summary>The fault models beside the program: one folder each, with a model.json. Read once at the start.</summary>
public sealed class FaultModelFolder
{
    private readonly SortedDictionary<string, CompiledModel> models = new(StringComparer.Ordinal);

    /// <exception cref="StartException">A model cannot be used; the message says which, where and why.</exception>
    public FaultModelFolder(string folder)
    {
        if (!Directory.Exists(folder))
        {
            throw new StartException($"There is no folder of fault models at {folder}.");
        }

        foreach (var path in Directory.EnumerateFiles(folder, "model.json", SearchOption.AllDirectories).Order(StringComparer.Ordinal))
        {
            Add(path);
        }

        if (models.Count == 0)
        {
            throw new StartException($"There is no fault model in {folder}; each is a folder with a model.json.");
        }
    }

    public IReadOnlyList<FaultModel> All => [.. models.Values.Select(m => m.Source)];

    public FaultModel? Find(string id) => Compiled(id)?.Source;

    public CompiledModel? Compiled(string id) => models.GetValueOrDefault(id);

    private void Add(string path)
    {
        try
        {
            var model = FaultModelReader.Read(File.ReadAllText(path));
            if (!models.TryAdd(model.Id, new CompiledModel(model)))
            {
                throw new StartException($"{path}: a second fault model calls itself \"{model.Id}\"; ids must differ.");
            }
        }
        catch (FaultModelException e)
        {
            throw new StartException($"{path}: {e.Message}");
        }
    }
}
