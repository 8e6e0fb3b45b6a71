using System.Collections.Immutable;
using System.Reflection.Metadata;
using System.Reflection.Metadata.Ecma335;
using System.Reflection.PortableExecutable;

namespace Lightkeel.Conventions.Tests;

/// <summary>A type, named by assembly, namespace and name; nested types count as their outermost one.</summary>
internal readonly record struct TypeName(string Assembly, string Namespace, string Name)
{
    public override string ToString() => $"{Namespace}.{Name}";
}

/// <summary>Which types each type of an assembly uses: in its signatures, its constraints and the code of its methods.</summary>
/// <remarks>Reads the compiled file by ECMA-335; nothing is loaded or run.</remarks>
internal sealed class TypeUses
{
    private readonly MetadataReader _metadata;
    private readonly PEReader _file;
    private readonly string _assembly;
    private readonly HashSet<(TypeName User, TypeName Used)> _uses = [];

    private TypeUses(PEReader file)
    {
        _file = file;
        _metadata = file.GetMetadataReader();
        _assembly = _metadata.GetString(_metadata.GetAssemblyDefinition().Name);
    }

    /// <summary>All uses in an assembly, by its file.</summary>
    public static IReadOnlyCollection<(TypeName User, TypeName Used)> In(string path)
    {
        using PEReader file = new(File.OpenRead(path));
        TypeUses uses = new(file);
        foreach (TypeDefinitionHandle handle in uses._metadata.TypeDefinitions)
        {
            uses.Visit(handle);
        }
        return uses._uses;
    }

    private void Visit(TypeDefinitionHandle handle)
    {
        TypeName user = NameOf(handle);
        TypeDefinition type = _metadata.GetTypeDefinition(handle);
        AddToken(user, type.BaseType);
        foreach (InterfaceImplementationHandle implemented in type.GetInterfaceImplementations())
        {
            AddToken(user, _metadata.GetInterfaceImplementation(implemented).Interface);
        }
        foreach (FieldDefinitionHandle field in type.GetFields())
        {
            AddAll(user, _metadata.GetFieldDefinition(field).DecodeSignature(new Provider(this), null));
        }
        foreach (PropertyDefinitionHandle property in type.GetProperties())
        {
            Add(user, _metadata.GetPropertyDefinition(property).DecodeSignature(new Provider(this), null));
        }
        foreach (MethodDefinitionHandle method in type.GetMethods())
        {
            VisitMethod(user, _metadata.GetMethodDefinition(method));
        }
        foreach (GenericParameterHandle parameter in type.GetGenericParameters())
        {
            AddConstraints(user, parameter);
        }
    }

    private void VisitMethod(TypeName user, MethodDefinition method)
    {
        Add(user, method.DecodeSignature(new Provider(this), null));
        foreach (GenericParameterHandle parameter in method.GetGenericParameters())
        {
            AddConstraints(user, parameter);
        }
        if (method.RelativeVirtualAddress == 0)
        {
            return;
        }
        MethodBodyBlock body = _file.GetMethodBody(method.RelativeVirtualAddress);
        if (!body.LocalSignature.IsNil)
        {
            StandaloneSignature locals = _metadata.GetStandaloneSignature(body.LocalSignature);
            foreach (ImmutableArray<TypeName> local in locals.DecodeLocalSignature(new Provider(this), null))
            {
                AddAll(user, local);
            }
        }
        foreach (int token in InstructionTokens.In(body.GetILBytes()!))
        {
            AddToken(user, MetadataTokens.EntityHandle(token));
        }
    }

    private void AddConstraints(TypeName user, GenericParameterHandle parameter)
    {
        foreach (
            GenericParameterConstraintHandle constraint in _metadata.GetGenericParameter(parameter).GetConstraints()
        )
        {
            AddToken(user, _metadata.GetGenericParameterConstraint(constraint).Type);
        }
    }

    private void Add(TypeName user, MethodSignature<ImmutableArray<TypeName>> signature)
    {
        AddAll(user, signature.ReturnType);
        foreach (ImmutableArray<TypeName> parameter in signature.ParameterTypes)
        {
            AddAll(user, parameter);
        }
    }

    private void AddAll(TypeName user, ImmutableArray<TypeName> used)
    {
        foreach (TypeName name in used)
        {
            _ = _uses.Add((user, name));
        }
    }

    private void AddToken(TypeName user, EntityHandle handle)
    {
        switch (handle.Kind)
        {
            case HandleKind.TypeDefinition when !handle.IsNil:
                AddAll(user, [NameOf((TypeDefinitionHandle)handle)]);
                break;
            case HandleKind.TypeReference:
                AddAll(user, [NameOf((TypeReferenceHandle)handle)]);
                break;
            case HandleKind.TypeSpecification:
                TypeSpecification specification = _metadata.GetTypeSpecification((TypeSpecificationHandle)handle);
                AddAll(user, specification.DecodeSignature(new Provider(this), null));
                break;
            case HandleKind.MethodSpecification:
                MethodSpecification method = _metadata.GetMethodSpecification((MethodSpecificationHandle)handle);
                foreach (ImmutableArray<TypeName> argument in method.DecodeSignature(new Provider(this), null))
                {
                    AddAll(user, argument);
                }
                AddToken(user, method.Method);
                break;
            case HandleKind.MemberReference:
                AddMember(user, _metadata.GetMemberReference((MemberReferenceHandle)handle));
                break;
            case HandleKind.MethodDefinition:
                AddToken(user, _metadata.GetMethodDefinition((MethodDefinitionHandle)handle).GetDeclaringType());
                break;
            case HandleKind.FieldDefinition:
                AddToken(user, _metadata.GetFieldDefinition((FieldDefinitionHandle)handle).GetDeclaringType());
                break;
        }
    }

    private void AddMember(TypeName user, MemberReference member)
    {
        AddToken(user, member.Parent);
        if (member.GetKind() == MemberReferenceKind.Method)
        {
            Add(user, member.DecodeMethodSignature(new Provider(this), null));
        }
        else
        {
            AddAll(user, member.DecodeFieldSignature(new Provider(this), null));
        }
    }

    private TypeName NameOf(TypeDefinitionHandle handle)
    {
        TypeDefinition type = _metadata.GetTypeDefinition(handle);
        while (!type.GetDeclaringType().IsNil)
        {
            type = _metadata.GetTypeDefinition(type.GetDeclaringType());
        }
        return new(_assembly, _metadata.GetString(type.Namespace), _metadata.GetString(type.Name));
    }

    private TypeName NameOf(TypeReferenceHandle handle)
    {
        TypeReference type = _metadata.GetTypeReference(handle);
        while (type.ResolutionScope.Kind == HandleKind.TypeReference)
        {
            type = _metadata.GetTypeReference((TypeReferenceHandle)type.ResolutionScope);
        }
        string assembly =
            type.ResolutionScope.Kind == HandleKind.AssemblyReference
                ? _metadata.GetString(
                    _metadata.GetAssemblyReference((AssemblyReferenceHandle)type.ResolutionScope).Name
                )
                : _assembly;
        return new(assembly, _metadata.GetString(type.Namespace), _metadata.GetString(type.Name));
    }

    /// <summary>Decodes signatures into the types that they name.</summary>
    private sealed class Provider(TypeUses uses) : ISignatureTypeProvider<ImmutableArray<TypeName>, object?>
    {
        public ImmutableArray<TypeName> GetArrayType(ImmutableArray<TypeName> elementType, ArrayShape shape) =>
            elementType;

        public ImmutableArray<TypeName> GetByReferenceType(ImmutableArray<TypeName> elementType) => elementType;

        public ImmutableArray<TypeName> GetFunctionPointerType(MethodSignature<ImmutableArray<TypeName>> signature) =>
            [.. signature.ReturnType, .. signature.ParameterTypes.SelectMany(type => type)];

        public ImmutableArray<TypeName> GetGenericInstantiation(
            ImmutableArray<TypeName> genericType,
            ImmutableArray<ImmutableArray<TypeName>> typeArguments
        ) => [.. genericType, .. typeArguments.SelectMany(type => type)];

        public ImmutableArray<TypeName> GetGenericMethodParameter(object? genericContext, int index) => [];

        public ImmutableArray<TypeName> GetGenericTypeParameter(object? genericContext, int index) => [];

        public ImmutableArray<TypeName> GetModifiedType(
            ImmutableArray<TypeName> modifier,
            ImmutableArray<TypeName> unmodifiedType,
            bool isRequired
        ) => unmodifiedType;

        public ImmutableArray<TypeName> GetPinnedType(ImmutableArray<TypeName> elementType) => elementType;

        public ImmutableArray<TypeName> GetPointerType(ImmutableArray<TypeName> elementType) => elementType;

        public ImmutableArray<TypeName> GetPrimitiveType(PrimitiveTypeCode typeCode) => [];

        public ImmutableArray<TypeName> GetSZArrayType(ImmutableArray<TypeName> elementType) => elementType;

        public ImmutableArray<TypeName> GetTypeFromDefinition(
            MetadataReader reader,
            TypeDefinitionHandle handle,
            byte rawTypeKind
        ) => [uses.NameOf(handle)];

        public ImmutableArray<TypeName> GetTypeFromReference(
            MetadataReader reader,
            TypeReferenceHandle handle,
            byte rawTypeKind
        ) => [uses.NameOf(handle)];

        public ImmutableArray<TypeName> GetTypeFromSpecification(
            MetadataReader reader,
            object? genericContext,
            TypeSpecificationHandle handle,
            byte rawTypeKind
        ) => reader.GetTypeSpecification(handle).DecodeSignature(this, genericContext);
    }
}
